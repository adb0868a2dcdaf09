package verify

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/sim/closure"
	"annuloscope/sim/ring"
	"annuloscope/sim/ring/specimen"
	"annuloscope/sim/units"

	"gonum.org/v1/gonum/spatial/r3"
)

// grids checks the grid convergence routine and studies the program's own grids.
func grids() []Row {
	s := &sheet{group: "Grids", source: ""}
	g := Converge(0.97050, 0.96854, 0.96178, 2)
	const golden = "users.md, grid-convergence golden test"
	s.exact("observed order of the golden test", "1", 1.78617, g.Order, 1e-4, golden)
	s.exact("Richardson limit of the golden test", "1", 0.971300, g.Limit, 1e-6, golden)
	s.exact("convergence index, fine grid", "%", 0.10308, g.FinePct, 1e-4, golden)
	s.exact("convergence index, coarse grid", "%", 0.35625, g.CoarsePct, 1e-4, golden)

	const ringGrid = "ring with 256, 128, 64 points; scheme of order 2"
	a, b, c := bandedRing(256), bandedRing(128), bandedRing(64)
	s.grid("septal-lateral loss by a sinus band of 20 mm", "mm", a.loss, b.loss, c.loss, 2, 2, 0.01, ringGrid)
	s.grid("tension of that band", "N", a.tension, b.tension, c.tension, 2, 2, 0.01, ringGrid)
	s.grid("area of the annulus under that band", "mm²", a.area, b.area, c.area, 2, 2, 0.01, ringGrid)

	const lineGrid = "closure with 121, 61, 31 stations; trapezoid rule, order 2"
	p, q, r := shrunkClosure(121), shrunkClosure(61), shrunkClosure(31)
	s.grid("effective orifice after 3 mm of septal-lateral loss", "cm²", p.orifice, q.orifice, r.orifice, 2, 2, 0.01, lineGrid)
	s.grid("mean contact after it", "mm", p.contact, q.contact, r.contact, 2, 2, 0.01, lineGrid)
	s.grid("tenting volume after it", "mL", p.tenting, q.tenting, r.tenting, 2, 2, 0.01, lineGrid)

	length := func(n int) float64 { return geometry.Perimeter(saddle(0.2, n)) / (2 * math.Pi) }
	s.grid("polygon through a saddle, over 2πR", "1", length(512), length(256), length(128), 2, 2, 1e-4, "polygon of 512, 256, 128 points, order 2")
	// The C1 loop: its activation is smooth, that of C2 has corners.
	leak := func(steps int) float64 { return runThree(steps, 20).Backward[2] }
	s.grid("leak volume of the C1 loop", "mL", leak(1600), leak(800), leak(400), 2, 2, 1e-3, "circulation with 1600, 800, 400 steps a beat, order 2")
	return s.rows
}

type ringAnswer struct{ loss, tension, area float64 }

// bandedRing shortens a band from 8 mm to four fifths of the vein by 20 mm; the vein's points keep pace with the ring's.
func bandedRing(n int) ringAnswer {
	shape := specimen.Functional()
	shape.Points, shape.VeinPoints = n, 77*n/128+1
	b := shape.Build()
	in := &ring.Input{Annulus: ring.Annulus{Rest: b.Annulus, Fibrous: b.Fibrous}, Constants: ring.Default(),
		Vein: ring.Vein{Rest: b.Vein, Station: b.Station, OnAtrium: b.OnAtrium, Partner: b.Partner, Distance: b.Distance, Elevation: b.Elevation}}
	in.Band = &ring.Band{ProximalMM: 8, DistalMM: 0.8 * b.Station[len(b.Station)-1], ShorteningMM: 20}
	r := ring.Solve(in)
	if !r.Status.OK() {
		return ringAnswer{math.NaN(), math.NaN(), math.NaN()}
	}
	return ringAnswer{r.SeptalLateralLoss(), r.Band.TensionN, r.After.AreaMM2}
}

type closureAnswer struct{ orifice, contact, tenting float64 }

// closureInput is an elliptic saddle of 40 mm between the commissures at 100 mmHg.
func closureInput(septalLateral float64, stations int) *closure.Input {
	line := make([]r3.Vec, 256)
	for i := range line {
		t := 2 * math.Pi * float64(i) / 256
		line[i] = r3.Vec{X: 20 * math.Cos(t), Y: septalLateral / 2 * math.Sin(t), Z: -3 * math.Cos(2*t)}
	}
	in := &closure.Input{Pressure: units.PressureFromMMHg(100)}
	pap := closure.DefaultPapillary()
	closure.BuildLine(&in.Line, line, &pap, stations)
	return in
}

// shrunkClosure fits a functional leak at 37 mm and solves it at 34 mm.
func shrunkClosure(stations int) closureAnswer {
	f, _ := closure.Fit(closureInput(37, stations), closure.Targets{DepthMM: 10.5, ContactMM: 1.5, EffectiveOrifice: 0.30})
	r := closure.Solve(f, closureInput(34, stations), nil)
	if r.Status != closure.Converged {
		return closureAnswer{math.NaN(), math.NaN(), math.NaN()}
	}
	return closureAnswer{float64(r.EffectiveOrifice), r.Contact.Mean, r.TentingVolumeML}
}
