package measured_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"testing"

	"annuloscope/assets"
	"annuloscope/geometry/meshio"
	"annuloscope/sim/casefile"
	"annuloscope/sim/measured"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

func builtIn(t testing.TB, name string) casefile.Case {
	t.Helper()
	data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := casefile.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// moving is a rotation with a shift.
type moving struct {
	r     r3.Rotation
	shift r3.Vec
}

func (m moving) all(p []r3.Vec, scale float64) []r3.Vec {
	var out []r3.Vec
	for _, q := range p {
		out = append(out, r3.Scale(scale, r3.Add(m.r.Rotate(q), m.shift)))
	}
	return out
}

// exported returns the curves of a patient as a file would hold them, and as a reader finds them in it.
func exported(t testing.TB, c casefile.Case, m moving, scale float64) (annulus, sinus, artery meshio.Polyline) {
	t.Helper()
	rest, err := valve.RestOf(&c.Patient)
	if err != nil {
		t.Fatal(err)
	}
	scaled := func(v []float64) []float64 {
		var out []float64
		for _, x := range v {
			out = append(out, scale*x)
		}
		return out
	}
	lumen := make([]float64, len(rest.Artery))
	for i := range lumen {
		lumen[i] = c.Patient.Artery.DiameterMM / 2
	}
	through := func(p meshio.Polyline) meshio.Polyline {
		var b bytes.Buffer
		if err := meshio.WriteCSV(&b, p, nil); err != nil {
			t.Fatal(err)
		}
		q, err := meshio.Read(&b)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	return through(meshio.Polyline{Points: m.all(rest.Annulus, scale), Closed: true}),
		through(meshio.Polyline{Points: m.all(rest.Vein, scale), Radii: scaled(rest.VeinRadius)}),
		through(meshio.Polyline{Points: m.all(rest.Artery, scale), Radii: scaled(lumen)})
}

var moves = []moving{
	{r3.NewRotation(0, r3.Vec{Z: 1}), r3.Vec{}},
	{r3.NewRotation(2.1, r3.Vec{X: 1, Y: 2, Z: -0.5}), r3.Vec{X: 120, Y: -80, Z: 900}},
}

// A built-in case exported and imported again reproduces its report: every number within 1 % or the last shown digit,
// twice for what is told from the artery.
func TestRoundTripReproducesTheReport(t *testing.T) {
	for _, name := range assets.CaseNames() {
		for k, m := range moves {
			c := builtIn(t, name)
			c.Repairs = []repair.Step{repair.Must(repair.SinusBand)}
			a, s, art := exported(t, c, m, 1)
			r, err := measured.Import(measured.Input{Annulus: a, Sinus: &s, Artery: &art, Base: c})
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for _, x := range r.Residuals {
				t.Logf("%s %d: %s from %s: %.3f, %.3f", name, k, x.Curve, x.From, x.RMSMM, x.MaxMM)
			}
			t.Log(r.Found, r.Warnings)
			t.Logf("%+v", r.Case.Patient.Annulus)
			t.Logf("%+v", c.Patient.Annulus)
			t.Logf("%+v", r.Case.Patient.Sinus)
			t.Logf("%+v", c.Patient.Sinus)
			t.Logf("%+v", r.Case.Patient.Artery)
			t.Logf("%+v", c.Patient.Artery)
			want, err := valve.Solve(c, valve.Options{})
			if err != nil {
				t.Fatal(err)
			}
			got, err := valve.Solve(r.Case, valve.Options{})
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range valve.Quantities() {
				for _, st := range [][2]*valve.State{{&want.Before, &got.Before}, {&want.After, &got.After}} {
					w, g := q.Of(st[0]), q.Of(st[1])
					tol := math.Max(0.01*math.Abs(w), 1.01*math.Pow(10, -float64(q.Decimals)))
					if !(math.Abs(w-g) <= tol) && !(math.IsNaN(w) && math.IsNaN(g)) {
						t.Errorf("%s %d: %s %g, imported %g", name, k, q.Path, w, g)
					}
				}
			}
		}
	}
}

var _ = rand.New
