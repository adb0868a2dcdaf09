package verify

import (
	"fmt"

	"annuloscope/sim/hydraulic"
	"annuloscope/sim/orifice"
	"annuloscope/sim/units"
)

// hydraulics checks sim/hydraulic against Bernoulli's consequences.
func hydraulics() []Row {
	s := &sheet{group: "A1 hydraulics", source: "physics.md A1, "}
	areas := []units.EffectiveCM2{1.5, 2.25, 3}
	for q, want := range [][]float64{{7.111, 3.160, 1.778}, {11.111, 4.938, 2.778}, {16, 7.111, 4}} {
		flow := 200 + 50*float64(q)
		for i, a := range areas {
			s.exact(fmt.Sprintf("gradient of %g mL/s through %g cm²", flow, a), "mmHg", want[i], hydraulic.Gradient(a, flow), 1e-3, "4v²")
		}
	}
	s.exact("jet speed behind 11.111 mmHg", "cm/s", 166.67, hydraulic.JetSpeed(11.1111), 0.01, "v")
	q1, q2 := hydraulic.Flow(1.5, 3.7), hydraulic.Flow(0.75, 3.7)
	s.exact("flow ratio of two holes of area ratio 2 under one pressure", "1", 2, q1/q2, 1e-9, "two holes")
	s.exact("gradient of both flows through the summed area", "mmHg", 3.7, hydraulic.Gradient(2.25, q1+q2), 1e-9, "two holes")
	for i, a := range []units.EffectiveCM2{6, 4, 3.6, 3, 2, 1.5, 1} {
		want := []float64{0.351, 0.790, 0.975, 1.405, 3.160, 5.619, 12.642}[i]
		s.exact(fmt.Sprintf("steady gradient of 80 mL in 0.45 s through %g cm²", a), "mmHg", want, hydraulic.Gradient(a, 80/0.45), 1e-3, "mean gradient")
	}
	leak := hydraulic.Regurgitate(hydraulic.LeakInput{Orifice: 0.4, PressureMMHg: 100, DurationS: 0.3})
	s.exact("leak of 0.4 cm², 100 mmHg, 0.30 s", "mL", 60, leak.VolumeML, 1e-6, "")
	s.from("physics.md B, volume from orifice")
	s.exact("its velocity-time integral", "cm", 150, leak.VelocityTimeCM, 1e-6, "")
	s.from("physics.md B, volume from orifice")
	return s.rows
}

// bonds checks the margin limit of sim/orifice.
func bonds() []Row {
	s := &sheet{group: "A4 bonded opening", source: "physics.md A4, "}
	ratio := func(perimeter float64, b ...orifice.Bond) float64 {
		const chord = 20
		most := orifice.MarginLimitMM2(chord, perimeter/2)
		in := orifice.Input{CommissuralMM: chord, SeptalLateralMM: 28, MarginMM: perimeter,
			Intact: units.AnatomicCM2(most / 100 * (1 - 1e-8)), Bonds: b}
		r, err := orifice.Solve(in)
		if err != nil {
			panic("verify: " + err.Error())
		}
		return float64(r.Total / in.Intact)
	}
	for i, w := range []float64{0, 4, 5, 6, 8, 10} {
		want := []float64{0.5, 0.405, 0.3828, 0.3613, 0.32, 0.2813}[i]
		s.exact(fmt.Sprintf("area kept by a central bond of %g mm on a margin of 80 mm", w), "1", want,
			ratio(80, orifice.Bond{WidthMM: w, Hold: 1}), 1e-4, "circular limit")
	}
	for i, f := range []float64{0.6, 2. / 3, 0.75} {
		s.exact(fmt.Sprintf("area kept by a point bond splitting the edge at %.3f", f), "1", []float64{0.52, 0.5556, 0.625}[i],
			ratio(80, orifice.Bond{Position: 2*f - 1, Hold: 1}), 1e-4, "off-centre")
	}
	for n := 1; n <= 3; n++ {
		free := (50 - 5*float64(n)) / float64(n+1)
		var b []orifice.Bond
		for k := range n {
			b = append(b, orifice.Bond{Position: (free*float64(k+1)+5*float64(k)+2.5)/25 - 1, WidthMM: 5, Hold: 1})
		}
		s.exact(fmt.Sprintf("area kept by %d bonds of 5 mm on a margin of 100 mm", n), "1", []float64{0.405, 0.2133, 0.1225}[n-1],
			ratio(100, b...), 1e-4, "n bonds")
	}
	s.share("lens of chord 35 and edge 40 mm", "mm²", 402.75, orifice.MarginLimitMM2(35, 40), 1e-4, "lens")
	for i, w := range []float64{0, 3, 5, 8} {
		s.share(fmt.Sprintf("both halves of that lens with a bond of %g mm", w), "mm²", []float64{201.37, 177.08, 161.47, 138.97}[i],
			2*orifice.MarginLimitMM2((35-w)/2, (40-w)/2), 1e-3, "lens")
	}
	return s.rows
}
