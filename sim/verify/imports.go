package verify

import (
	"annuloscope/geometry/meshio"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/measured"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// imports exports a patient's curves into another frame and another unit and imports them again: the case and its report
// must come back (sim/MODEL.md, "Measured geometry").
func imports() []Row {
	s := &sheet{group: "Measured geometry", source: ""}
	c := casefile.Case{Patient: anatomy.Normal(), Repairs: []repair.Step{repair.Must(repair.SinusBand)}}
	c.Patient.Annulus.SeptalLateralMM, c.Patient.Annulus.CommissuralMM, c.Patient.Annulus.HeightMM = 36, 43, 5.9
	c.Patient.Sinus.ElevationMM.Middle, c.Patient.Sinus.DistanceMM.Middle = 8, 10
	rest, err := valve.RestOf(&c.Patient)
	if err != nil {
		panic("verify: " + err.Error())
	}
	turn := r3.NewRotation(2.1, r3.Vec{X: 1, Y: 2, Z: -0.5})
	line := func(points []r3.Vec, radius func(i int) float64, closed bool) meshio.Polyline {
		p := meshio.Polyline{Closed: closed}
		for i, q := range points { // in cm, turned and moved away
			p.Points = append(p.Points, r3.Scale(0.1, r3.Add(turn.Rotate(q), r3.Vec{X: 120, Y: -80, Z: 900})))
			if radius != nil {
				p.Radii = append(p.Radii, 0.1*radius(i))
			}
		}
		return p
	}
	vein := line(rest.Vein, func(i int) float64 { return rest.VeinRadius[i] }, false)
	artery := line(rest.Artery, func(int) float64 { return c.Patient.Artery.DiameterMM / 2 }, false)
	got, err := measured.Import(measured.Input{Annulus: line(rest.Annulus, nil, true), Sinus: &vein, Artery: &artery, Base: c})
	if err != nil {
		panic("verify: " + err.Error())
	}
	const source = "identity: exported in cm into another frame and imported again; stated tolerance 1 %"
	p, q := &got.Case.Patient, &c.Patient
	for _, x := range []struct {
		name, unit string
		want, ours float64
	}{
		{"septal-lateral diameter", "mm", q.Annulus.SeptalLateralMM, p.Annulus.SeptalLateralMM},
		{"commissural diameter", "mm", q.Annulus.CommissuralMM, p.Annulus.CommissuralMM},
		{"height of the saddle", "mm", q.Annulus.HeightMM, p.Annulus.HeightMM},
		{"length of the vein", "mm", q.Sinus.LengthMM, p.Sinus.LengthMM},
		{"height of the vein over P2", "mm", q.Sinus.ElevationMM.Middle, p.Sinus.ElevationMM.Middle},
		{"distance of the vein at P2", "mm", q.Sinus.DistanceMM.Middle, p.Sinus.DistanceMM.Middle},
		{"station where the artery dives under the vein", "mm", q.Artery.DeepFromMM, p.Artery.DeepFromMM},
		{"tissue between vein and artery", "mm", q.Artery.SeparationMM, p.Artery.SeparationMM},
	} {
		s.exact("curves there and back: "+x.name, x.unit, x.want, x.ours, 0.01*x.want, source)
	}
	before, err := valve.Solve(c, valve.Options{})
	if err != nil {
		panic("verify: " + err.Error())
	}
	after, err := valve.Solve(got.Case, valve.Options{})
	if err != nil {
		panic("verify: " + err.Error())
	}
	for _, path := range []string{"annulus.septal_lateral_mm", "sinus.tension_n", "artery.worst_view_narrowing_pct", "opening.mean_gradient_mmhg"} {
		quantity, ok := valve.FindQuantity(path)
		if !ok {
			panic("verify: no quantity " + path)
		}
		w := quantity.Of(&before.After)
		s.exact("curves there and back, with a sinus band: "+quantity.Label, quantity.Unit, w, quantity.Of(&after.After), 0.01*w, source)
	}
	return s.rows
}
