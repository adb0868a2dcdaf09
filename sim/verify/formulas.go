package verify

import (
	"fmt"
	"math"

	"annuloscope/sim/grade"
	"annuloscope/sim/lab"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// formulas checks sim/lab against worked numbers.
func formulas() []Row {
	s := &sheet{group: "B formulas", source: "physics.md B, "}
	s.exact("Gorlin mitral, 5000 mL/min, 75/min, 0.40 s, 10 mmHg", "cm²", 1.3980, float64(lab.GorlinMitral(5000, 75, 0.40, 10)), 1e-4, "S15")
	s.exact("Gorlin mitral, 4000 mL/min, 80/min, 0.36 s, 16 mmHg", "cm²", 0.9210, float64(lab.GorlinMitral(4000, 80, 0.36, 16)), 1e-4, "S15")
	s.exact("Gorlin aortic, 5000 mL/min, 80/min, 0.33 s, 50 mmHg", "cm²", 0.6046, float64(lab.GorlinAortic(5000, 80, 0.33, 50)), 1e-4, "S16 inputs")
	for i, t := range []float64{220, 150, 110} {
		s.exact(fmt.Sprintf("area from a half-time of %g ms", t), "cm²", []float64{1, 1.467, 2}[i], float64(lab.AreaFromHalfTime(t)), 1e-3, "S17, S19")
	}
	s.exact("half-time over deceleration time", "1", 0.29289, lab.HalfTimeFromDeceleration(1), 1e-5, "identity")
	for i, c := range [][3]float64{{1, 5, 14}, {1.5, 5, 10}, {2, 6, 8}, {1, 4, 10}} {
		s.share(fmt.Sprintf("half-time of emptying, %g cm², %g mL/mmHg, %g mmHg", c[0], c[1], c[2]), "ms",
			[]float64{219.18, 123.50, 99.41, 148.19}[i], lab.EmptyingHalfTime(c[1], c[2], units.EffectiveCM2(c[0])), 1e-3, "its PHT")
	}
	p := lab.Hemisphere(0.9, 40, 500)
	s.share("flow through a hemisphere of 0.9 cm at 40 cm/s", "mL/s", 203.58, p.FlowMLPerS, 1e-3, "S24")
	s.exact("its orifice at a jet of 500 cm/s", "cm²", 0.4072, float64(p.Orifice), 1e-4, "S24")
	s.exact("its volume at an integral of 140 cm", "mL", 57, p.RegurgitantVolume(140), 1e-2, "S24")
	s.exact("its orifice in a funnel of 120°", "cm²", 0.4072*120/180, float64(p.Wedge(120).Orifice), 1e-4, "S25")
	p = lab.Hemisphere(1, 38, 500)
	s.exact("orifice, 1.0 cm, 38 cm/s", "cm²", 0.4775, float64(p.Orifice), 1e-4, "PISA 2")
	s.exact("volume, 1.0 cm, 38 cm/s, 150 cm", "mL", 71.63, p.RegurgitantVolume(150), 1e-2, "PISA 2")
	s.exact("orifice, 0.6 cm, 40 cm/s, jet 480", "cm²", 0.1885, float64(lab.Hemisphere(0.6, 40, 480).Orifice), 1e-4, "PISA 3")
	s.exact("short form at 0.9 cm", "cm²", 0.405, float64(lab.ShortForm(0.9)), 1e-9, "short form")
	out := lab.CircleVolume(2, 20)
	s.exact("outflow volume, 2.0 cm, 20 cm", "mL", 62.83, out, 1e-2, "continuity")
	s.exact("continuity area at 45 cm", "cm²", 1.396, float64(lab.Continuity(out, 45)), 1e-3, "continuity")
	v := lab.VolumetricLeak(lab.CircleVolume(3.5, 10), out, 120)
	s.exact("volumetric leak", "mL", 33.38, v.LeakML, 1e-2, "S26")
	s.exact("its fraction", "1", 0.347, v.Fraction, 1e-3, "S26")
	slit := []r2.Vec{{X: -10, Y: -1}, {X: 10, Y: -1}, {X: 10, Y: 1}, {X: -10, Y: 1}}
	r := lab.ReadLeak(lab.LeakInput{Outline: slit, FlowMLPerS: 200, JetCMPS: 500, AliasCMPS: 40})
	s.share("hemispheric reading of a 20 × 2 mm slit whose true orifice is 0.40 cm²", "cm²", 0.22, float64(r.Hemispheric.Orifice), 0.02, "")
	s.from("issue 4, acceptance of the slit; field of a line sink")
	v1 := units.JetSpeedPerRootMMHg / 100
	s.exact("pressure behind a jet of the program's lossless speed, ½ρv²", "mmHg", 1, 0.5*units.BloodDensity*v1*v1/133.322, 1e-4, "true-density constant")
	return s.rows
}

// grades finds the thresholds of sim/grade by bisection and compares them with the published steps.
func grades() []Row {
	s := &sheet{group: "B2, B3 grades", source: "physics.md "}
	nan := math.NaN()
	empty := func() grade.LeakInput {
		return grade.LeakInput{Orifice: grade.ExactOrifice(units.EffectiveCM2(nan)), VolumeML: grade.NotMeasured(), FractionPct: grade.NotMeasured(),
			VenaContractaCM: grade.NotMeasured(), EarlySpeedMPS: grade.NotMeasured()}
	}
	set := map[string]func(*grade.LeakInput, float64){
		"orifice":  func(in *grade.LeakInput, v float64) { in.Orifice = grade.ExactOrifice(units.EffectiveCM2(v)) },
		"volume":   func(in *grade.LeakInput, v float64) { in.VolumeML = grade.Exactly(v) },
		"fraction": func(in *grade.LeakInput, v float64) { in.FractionPct = grade.Exactly(v) },
	}
	from := func(scheme grade.Scheme, what string, class grade.Class, high float64) float64 {
		return threshold(0, high, func(v float64) bool {
			in := empty()
			set[what](&in, v)
			return grade.Leak(scheme, in).Class == class
		})
	}
	s.add(Published, "severe leak from this orifice", "cm²", 0.40, from(grade.PrimaryFourStep, "orifice", grade.Severe, 1), 1e-9, "B3, S18")
	s.add(Published, "severe leak from this volume", "mL", 60, from(grade.PrimaryFourStep, "volume", grade.Severe, 200), 1e-9, "B3, S18")
	s.add(Published, "severe leak from this fraction", "%", 50, from(grade.PrimaryFourStep, "fraction", grade.Severe, 100), 1e-9, "B3, S18")
	s.add(Secondary, "severe secondary leak from this orifice (2014-era)", "cm²", 0.20, from(grade.SecondaryAmerican, "orifice", grade.Severe, 1), 1e-9, "B3, S25b")
	s.add(Memory, "severe secondary leak from this orifice (Europe)", "cm²", 0.40, from(grade.SecondaryEuropean, "orifice", grade.Severe, 1), 1e-9, "B3, S28")
	s.add(Secondary, "severe stenosis above this gradient at 70/min", "mmHg", 10, threshold(0, 40, func(v float64) bool {
		g := grade.Stenosis(grade.StenosisInput{Area: units.EffectiveCM2(nan), MeanGradientMMHg: v, RatePerMin: 70, LungSystolicMMHg: nan})
		return g.Class == grade.Severe
	}), 1e-9, "B2, S19")
	return s.rows
}

// threshold is where a test that is false at low and true at high turns true.
func threshold(low, high float64, holds func(float64) bool) float64 {
	if holds(low) || !holds(high) {
		return math.NaN()
	}
	for range 100 {
		if mid := (low + high) / 2; holds(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}
