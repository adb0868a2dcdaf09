package valve_test

import (
	"fmt"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// leaking is an invented patient with a functional leak.
func leaking() casefile.Case {
	p := anatomy.Normal()
	p.Mechanism = anatomy.Functional
	p.Annulus.SeptalLateralMM, p.Annulus.CommissuralMM = 36, 43                             // mm
	p.Measured.DepthMM, p.Measured.ContactMM, p.Measured.EffectiveOrificeCM2 = 9.5, 2, 0.32 // mm, mm, cm²
	p.Heart.EndDiastolicML, p.Heart.EndSystolicML, p.Heart.AtrialMeanMMHg = 230, 138, 17    // mL, mL, mmHg
	return casefile.Case{Name: "my-patient", Patient: p, Repairs: []repair.Step{repair.Must(repair.SinusBand)}}
}

// Solve a case: what was measured comes out as it was put in, and the repair changes it.
func ExampleSolve() {
	r, err := valve.Solve(leaking(), valve.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("before: %.1f mm wide, leak orifice %.2f cm²\n", r.Before.Annulus.SeptalLateralMM, float64(r.Before.Regurgitation.EffectiveOrificeCM2))
	fmt.Println("narrower:", r.After.Annulus.SeptalLateralMM < r.Before.Annulus.SeptalLateralMM-1)
	fmt.Println("smaller leak:", r.After.Regurgitation.EffectiveOrificeCM2 < r.Before.Regurgitation.EffectiveOrificeCM2)
	fmt.Println(r.Provenance.Status)
	// Output:
	// before: 36.0 mm wide, leak orifice 0.32 cm²
	// narrower: true
	// smaller leak: true
	// converged
}

// Compare repairs in one patient. A Solver keeps the fitted patient between solves; one goroutine may use it at a time.
func ExampleSolver_Solve() {
	s, c := valve.NewSolver(), leaking()
	narrowing := map[repair.Kind]float64{}
	for _, kind := range []repair.Kind{repair.SinusBand, repair.PosteriorBand, repair.EdgeClip} {
		c.Repairs = []repair.Step{repair.Must(kind)}
		r, err := s.Solve(c, valve.Options{})
		if err != nil {
			fmt.Println(err)
			return
		}
		q, _ := valve.FindQuantity("annulus.septal_lateral_mm") // names and units: valve.Quantities
		narrowing[kind] = q.Of(&r.Before) - q.Of(&r.After)
		fmt.Println(kind, "openings:", len(r.After.Opening.OrificesCM2))
	}
	fmt.Println("the direct band narrows more than the clip:", narrowing[repair.PosteriorBand] > narrowing[repair.EdgeClip])
	// Output:
	// sinus-band openings: 1
	// posterior-band openings: 1
	// edge-clip openings: 2
	// the direct band narrows more than the clip: true
}

// Sweep one number of a repair. Warm starts each solve from the one before.
func ExampleOptions() {
	s, c := valve.NewSolver(), leaking()
	last, falls := 1e9, 0
	for mm := 0.0; mm <= 20; mm += 5 {
		if err := c.Set("repair.1.shortening_mm", mm); err != nil {
			fmt.Println(err)
			return
		}
		r, err := s.Solve(c, valve.Options{Warm: true})
		if err != nil {
			fmt.Println(err)
			return
		}
		if w := r.After.Annulus.SeptalLateralMM; w < last {
			last, falls = w, falls+1
		}
	}
	fmt.Println("five shortenings, each narrower than the last:", falls == 5)
	// Output:
	// five shortenings, each narrower than the last: true
}
