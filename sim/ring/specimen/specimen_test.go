package specimen

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Equal arcs, the requested diameters, high points at A2 and P2, ostium at the right, vein at its distance outside.
func TestFunctional(t *testing.T) {
	s := Functional()
	b := s.Build()
	n := len(b.Annulus)
	lo, hi := math.Inf(1), 0.0
	box := r3.NewBox(b.Annulus[0].X, b.Annulus[0].Y, b.Annulus[0].Z, b.Annulus[0].X, b.Annulus[0].Y, b.Annulus[0].Z)
	for i, p := range b.Annulus {
		d := r3.Norm(r3.Sub(b.Annulus[(i+1)%n], p))
		lo, hi = math.Min(lo, d), math.Max(hi, d)
		box.Min = r3.Vec{X: math.Min(box.Min.X, p.X), Y: math.Min(box.Min.Y, p.Y), Z: math.Min(box.Min.Z, p.Z)}
		box.Max = r3.Vec{X: math.Max(box.Max.X, p.X), Y: math.Max(box.Max.Y, p.Y), Z: math.Max(box.Max.Z, p.Z)}
	}
	if hi-lo > 2e-3*hi {
		t.Errorf("segments from %g to %g mm", lo, hi)
	}
	for _, c := range []struct{ got, want float64 }{{box.Max.X - box.Min.X, 43}, {box.Max.Y - box.Min.Y, 34}, {box.Max.Z - box.Min.Z, 5.9}} {
		if math.Abs(c.got-c.want) > 0.05 {
			t.Errorf("size %g mm, want %g", c.got, c.want)
		}
	}
	if b.Annulus[0].Z > 0 || b.Annulus[n/4].Z < 0 {
		t.Error("the saddle is upside down")
	}
	if v := b.Vein[0]; v.X <= 0 || v.Y >= 0 {
		t.Errorf("ostium at %v, should be right and behind", v)
	}
	for j, v := range b.Vein {
		i := int(math.Round(b.Partner[j])) % n
		if d := r3.Norm(r3.Sub(v, b.Annulus[i])); d < 9 || d > 10.5 {
			t.Errorf("vein point %d lies %g mm from its partner, want √(8²+5²) = 9.4", j, d)
		}
		if j > 0 && b.Station[j] <= b.Station[j-1] {
			t.Errorf("station %d does not rise", j)
		}
	}
}
