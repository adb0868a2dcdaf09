package verify

import (
	"fmt"
	"math"

	"annuloscope/sim/beat/loop"
)

// threeCompartments checks sim/beat/loop on physics.md C1.
func threeCompartments() []Row {
	s := &sheet{group: "C1 three compartments", source: "physics.md C1 (S29), "}
	const steps = 850
	r := runThree(steps, 0)
	esv, edv, _ := span(r.V[0])
	_, peak, _ := span(r.P[0])
	low, high, mean := span(r.P[1])
	for _, c := range []struct {
		what, unit string
		want, got  float64
	}{{"end-diastolic volume", "mL", 161.31, edv}, {"end-systolic volume", "mL", 85.07, esv}, {"ventricular peak", "mmHg", 130.55, peak},
		{"arterial peak", "mmHg", 126.34, high}, {"arterial low", "mmHg", 82.57, low}, {"arterial mean", "mmHg", 106.21, mean},
		{"output", "L/min", 5.381, r.Forward[0] / 0.85 * 0.06}} {
		s.share(c.what, c.unit, c.want, c.got, 0.002, "periodic state")
	}
	for i, k := range []float64{5, 10, 15, 20} {
		r := runThree(steps, k)
		esv, edv, _ := span(r.V[0])
		s.share(fmt.Sprintf("leak volume, coefficient %g", k), "mL", []float64{21.12, 40.60, 58.45, 74.58}[i], r.Backward[2], 0.005, "leak")
		s.share(fmt.Sprintf("leak fraction, coefficient %g", k), "1", []float64{0.230, 0.382, 0.489, 0.567}[i], r.Backward[2]/(edv-esv), 0.005, "leak")
	}
	return s.rows
}

// fourChambers checks sim/beat/loop on physics.md C2.
func fourChambers() []Row {
	s := &sheet{group: "C2 four chambers", source: "physics.md C2 (S31), "}
	const steps = 800
	r := runFour(steps, 400, 0)
	total, worst := 0.0, 0.0
	for i := range steps {
		total = 0
		for c := range r.V {
			total += r.V[c][i]
		}
		worst = max(worst, math.Abs(total-1327.4))
	}
	s.exact("largest departure of the volume from 1327.400 mL", "mL", 0, worst, 1e-6, "conservation")
	esv, edv, _ := span(r.V[loop.FourLV])
	_, peak, _ := span(r.P[loop.FourLV])
	_, _, art := span(r.P[loop.FourArtery])
	_, _, lap := span(r.P[loop.FourLA])
	_, _, lung := span(r.P[loop.FourPulmonaryArtery])
	early, late := 0.0, 0.0
	for i, q := range r.Q[loop.FourLA] {
		if i < steps*92/100 {
			early = max(early, q)
		} else {
			late = max(late, q)
		}
	}
	for _, c := range []struct {
		what, unit string
		want, got  float64
	}{{"end-diastolic volume", "mL", 141.71, edv}, {"end-systolic volume", "mL", 55.84, esv}, {"ventricular peak", "mmHg", 129.5, peak},
		{"arterial mean", "mmHg", 109.5, art}, {"atrial mean", "mmHg", 12.82, lap}, {"lung artery mean", "mmHg", 39.95, lung},
		{"early filling peak", "mL/s", 863, early}, {"late filling peak", "mL/s", 505, late},
		{"ventricular volume at 0.25 s", "mL", 59.91, r.V[loop.FourLV][steps/4]}, {"ventricular pressure at 0.25 s", "mmHg", 129.44, r.P[loop.FourLV][steps/4]}} {
		s.share(c.what, c.unit, c.want, c.got, 0.005, "normal")
	}
	for i, a := range []float64{0.1, 0.2, 0.3, 0.4, 0.6} {
		r := runFour(steps, 400, 50*a)
		_, _, lap := span(r.P[loop.FourLA])
		s.share(fmt.Sprintf("leak volume, orifice %g cm²", a), "mL", []float64{17.40, 33.59, 48.40, 61.69, 83.56}[i], r.Backward[loop.FourLA], 0.01, "leak")
		s.share(fmt.Sprintf("atrial mean, orifice %g cm²", a), "mmHg", []float64{13.64, 14.39, 15.07, 15.68, 16.73}[i], lap, 0.01, "leak")
	}
	for i, a := range []float64{4, 2, 1.5, 1} {
		r := runFour(steps, 50*a, 0)
		sum, n := 0.0, 0.0
		for i, q := range r.Q[loop.FourLA] {
			if q > 0 {
				sum, n = sum+r.P[loop.FourLA][i]-r.P[loop.FourLV][i], n+1
			}
		}
		s.share(fmt.Sprintf("mean gradient of a stenosis of %g cm²", a), "mmHg", []float64{1.12, 2.67, 3.96, 6.67}[i], sum/n, 0.01, "stenosis")
	}
	return s.rows
}
