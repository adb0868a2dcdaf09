package anatomy_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/fault"
)

// Every parameter reaches a field of its own: what is set at one path is read there and nowhere else.
func TestPathsReachFieldsOfTheirOwn(t *testing.T) {
	seen := map[*float64]string{}
	p := anatomy.Normal()
	names := map[string]bool{}
	for _, q := range anatomy.Parameters() {
		at := q.At(&p)
		if other, ok := seen[at]; ok {
			t.Errorf("%s and %s are the same field", q.Path, other)
		}
		if names[q.Path] {
			t.Errorf("%s stands twice in the table", q.Path)
		}
		seen[at], names[q.Path] = q.Path, true
	}
	for _, q := range anatomy.Parameters() {
		v := q.Min + 0.25*(q.Max-q.Min)
		p := anatomy.Normal()
		if err := p.Set(q.Path, v); err != nil {
			t.Errorf("%s: %v", q.Path, err)
		}
		for _, r := range anatomy.Parameters() {
			got, want := *r.At(&p), r.Default
			if r.Path == q.Path {
				want = v
			}
			if got != want && !(math.IsNaN(got) && math.IsNaN(want)) {
				t.Errorf("set %s: %s is %g, not %g", q.Path, r.Path, got, want)
			}
		}
	}
}

// Values out of range, not a number or infinite are refused with the range, and change nothing.
func TestSetRefuses(t *testing.T) {
	for _, q := range anatomy.Parameters() {
		for _, v := range []float64{q.Min - 1e-9 - math.Abs(q.Min)*1e-12, q.Max * 1.0001, math.NaN(), math.Inf(1)} {
			if v >= q.Min && v <= q.Max { // a range that ends at 0
				continue
			}
			p := anatomy.Normal()
			err := p.Set(q.Path, v)
			var f *fault.Field
			if !errors.As(err, &f) || f.Path != q.Path || f.Allowed != q.Range() {
				t.Errorf("%s = %g: %v", q.Path, v, err)
			}
			if got := *q.At(&p); got != q.Default && !math.IsNaN(q.Default) {
				t.Errorf("%s: a refused value was kept: %g", q.Path, got)
			}
		}
	}
	var p anatomy.Patient
	if err := p.Set("annulus.septal_latteral_mm", 30); err == nil || !strings.Contains(err.Error(), "did you mean annulus.septal_lateral_mm?") {
		t.Errorf("a misspelt path: %v", err)
	}
	if err := p.SetChoice("mechanism", "worn"); err == nil || !strings.Contains(err.Error(), "functional") {
		t.Errorf("an unknown mechanism: %v", err)
	}
	if err := p.SetChoice("annulus.height_mm", "tall"); err == nil {
		t.Error("a word was taken for a number")
	}
}

// What no single range can say.
func TestConsistency(t *testing.T) {
	for _, c := range []struct {
		name, path string
		do         func(p *anatomy.Patient)
	}{
		{"measured in part", "measured", func(p *anatomy.Patient) { p.Measured.ContactMM = 2 }},
		{"depth and contact beyond the width", "measured.depth_mm", func(p *anatomy.Patient) {
			p.Annulus.SeptalLateralMM, p.Annulus.CommissuralMM = 22, 30
			p.Measured.DepthMM, p.Measured.ContactMM, p.Measured.EffectiveOrificeCM2 = 13, 10, 0.1
		}},
		{"cover ends before it begins", "sinus.cover_to_mm", func(p *anatomy.Patient) { p.Sinus.CoverFromMM, p.Sinus.CoverToMM = 55, 50 }},
		{"cover beyond the vein", "sinus.cover_to_mm", func(p *anatomy.Patient) { p.Sinus.LengthMM = 80 }},
		{"artery stretch turned round", "artery.deep_to_mm", func(p *anatomy.Patient) { p.Artery.DeepToMM = p.Artery.DeepFromMM - 1 }},
		{"calcified stretch turned round", "leaflet.calcified_to", func(p *anatomy.Patient) { p.Leaflet.CalcifiedFrom = 0.5 }},
		{"wider than long", "annulus.septal_lateral_mm", func(p *anatomy.Patient) { p.Annulus.SeptalLateralMM = 46 }},
		{"narrower than half", "annulus.septal_lateral_mm", func(p *anatomy.Patient) { p.Annulus.SeptalLateralMM = 19 }},
		{"no ejection", "heart.end_systolic_ml", func(p *anatomy.Patient) { p.Heart.EndSystolicML = 115 }},
		{"unknown mechanism", "mechanism", func(p *anatomy.Patient) { p.Mechanism = "worn" }},
	} {
		p := anatomy.Normal()
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
		c.do(&p)
		err := p.Validate()
		var f *fault.Field
		if !errors.As(err, &f) || f.Path != c.path || f.Allowed == "" || f.Fix == "" {
			t.Errorf("%s: %v; want a fault of %s with range and fix", c.name, err, c.path)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"sinus-band", "edge-clip", "full-ring"}
	for given, want := range map[string]string{"sinus-bend": "sinus-band", "clip": "edge-clip", "ring": "full-ring", strings.Repeat("x", 5000): "edge-clip"} {
		if got := anatomy.Nearest(given, names); got != want {
			t.Errorf("%.20q: %s, want %s", given, got, want)
		}
	}
	if names[0] != "sinus-band" {
		t.Error("the caller's list was sorted")
	}
}
