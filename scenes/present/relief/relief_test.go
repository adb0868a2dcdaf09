package relief_test

import (
	"math"
	"testing"

	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

func model(t *testing.T) (*relief.Model, valve.Report) {
	c := casefile.Case{Name: "normal", Patient: anatomy.Normal(), Repairs: []repair.Step{repair.Must(repair.SinusBand), repair.Must(repair.EdgeClip)}}
	r, err := valve.Solve(c, valve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	m := new(relief.Model)
	m.Load(r.Scene.After, r.After.Clips)
	return m, r
}

// At rest in systole the drawn leaflets are the solver's sections: every solved tip is a vertex.
func TestClosedLeafletsAreTheSolvedSections(t *testing.T) {
	m, r := model(t)
	s := m.Pose(0, theme.Light(), relief.Options{})
	for _, st := range r.Scene.After.Stations {
		for _, tip := range []r3.Vec{st.Anterior[len(st.Anterior)-1], st.Posterior[len(st.Posterior)-1]} {
			if d := nearest(tip, s.Surfaces[1].Vertices, s.Surfaces[2].Vertices); d > 1e-9 {
				t.Fatalf("the tip at s = %g is drawn %g mm away", st.S, d)
			}
		}
	}
}

// In diastole the free margins lie on the outlines whose areas are written beside them. 0.3 mm: between two outline points.
func TestOpenMarginsLieOnTheSolvedOutlines(t *testing.T) {
	m, r := model(t)
	s := m.Pose(1, theme.Light(), relief.Options{Areas: true})
	n := 0
	for _, c := range s.Curves[:2] { // the two margins come first
		for _, p := range c.Points {
			best := math.Inf(1)
			for _, q := range r.Scene.After.Orifices {
				lo, hi := math.Inf(1), math.Inf(-1)
				for i, v := range q.Outline {
					w := q.Outline[(i+1)%len(q.Outline)]
					lo, hi = math.Min(lo, v.X), math.Max(hi, v.X)
					best = math.Min(best, segment(p, v, w))
				}
				if p.X > lo && p.X < hi {
					n++
				}
			}
			inside := false
			for _, q := range r.Scene.After.Orifices {
				lo, hi := math.Inf(1), math.Inf(-1)
				for _, v := range q.Outline {
					lo, hi = math.Min(lo, v.X), math.Max(hi, v.X)
				}
				inside = inside || p.X > lo+0.5 && p.X < hi-0.5
			}
			if inside && best > 0.3 {
				t.Errorf("margin at x = %.1f is %.2f mm off the outline", p.X, best)
			}
		}
	}
	if n < 40 {
		t.Errorf("only %d margin points beside an orifice", n)
	}
}

func TestPoseOfAnUnchangedStateIsKept(t *testing.T) {
	m, _ := model(t)
	v := m.Pose(0.5, theme.Light(), relief.Options{}).Version
	if m.Pose(0.5, theme.Light(), relief.Options{}).Version != v {
		t.Error("the same pose got a new version")
	}
	if m.Pose(0.6, theme.Light(), relief.Options{}).Version == v {
		t.Error("another pose kept the version")
	}
}

func TestOpeningIsClosedInSystoleAndContinuous(t *testing.T) {
	last := relief.Opening(0)
	for i := 1; i <= 2000; i++ {
		o := relief.Opening(float64(i) / 2000)
		if math.Abs(o-last) > 0.02 || o < 0 || o > 1 {
			t.Fatalf("jump or range at %d: %g after %g", i, o, last)
		}
		last = o
	}
	if relief.Opening(relief.Systole) != 0 || relief.Opening(relief.Diastole) != 1 {
		t.Error("held phases")
	}
}

func nearest(p r3.Vec, sets ...[]r3.Vec) float64 {
	d := math.Inf(1)
	for _, set := range sets {
		for _, q := range set {
			d = math.Min(d, r3.Norm(r3.Sub(p, q)))
		}
	}
	return d
}

// segment is the distance seen from the atrium from p to the segment a-b.
func segment(p, a, b r3.Vec) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = math.Min(math.Max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
