package repair_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"annuloscope/sim/fault"
	"annuloscope/sim/repair"

	"pgregory.net/rapid"
)

// Every step within its ranges survives writing and reading, exactly.
func TestStepsGoRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := rapid.SampledFrom(repair.Specs()).Draw(t, "kind")
		s := repair.Must(spec.Kind)
		for _, p := range spec.Parameters {
			v := rapid.Float64Range(p.Min, p.Max).Draw(t, p.Key)
			if p.Whole() {
				v = math.Round(v)
			}
			if err := s.Set(p.Key, v); err != nil {
				t.Fatal(err)
			}
		}
		back, err := repair.Parse(s.String())
		if err != nil || back.Kind != s.Kind || !slices.Equal(back.Values, s.Values) {
			t.Fatalf("%v comes back as %v (%v)", s, back, err)
		}
	})
}

// A copy is one: changing it leaves the original, and With leaves it too.
func TestCopiesAreIndependent(t *testing.T) {
	s := repair.Must(repair.SinusBand)
	was := s.String()
	c := s.Clone()
	c.Values[0] = 99
	if d := s.With("shortening_mm", 7); d.Value("shortening_mm") != 7 || s.String() != was {
		t.Errorf("original %v", s)
	}
}

// Whole numbers only where a count or a yes is meant.
func TestWholeNumbers(t *testing.T) {
	whole := []string{}
	for _, spec := range repair.Specs() {
		for _, p := range spec.Parameters {
			if p.Whole() {
				whole = append(whole, string(spec.Kind)+"."+p.Key)
			}
			s := repair.Must(spec.Kind)
			if err := s.Set(p.Key, p.Min+0.5*(p.Max-p.Min)/math.Max(1, p.Max-p.Min)); p.Whole() == (err == nil) {
				t.Errorf("%s.%s: whole %v, half is taken: %v", spec.Kind, p.Key, p.Whole(), err)
			}
			if p.Default < p.Min || p.Default > p.Max || p.Step <= 0 || p.Meaning == "" {
				t.Errorf("%s.%s: incomplete: %+v", spec.Kind, p.Key, p)
			}
		}
	}
	for _, want := range []string{"sinus-band.separated", "sinus-rods.count", "edge-clip.detached"} {
		if !slices.Contains(whole, want) {
			t.Errorf("%s takes parts of one", want)
		}
	}
}

// What may not stand together.
func TestListsThatAreRefused(t *testing.T) {
	clip, band := repair.Must(repair.EdgeClip), repair.Must(repair.SinusBand)
	for _, c := range []struct {
		name, says string
		steps      []repair.Step
	}{
		{"four bonds", "too many clips and stitches", []repair.Step{clip, clip, repair.Must(repair.EdgeStitch), clip}},
		{"two bands", "the same repair twice", []repair.Step{band, clip, band}},
		{"anchors crossed", "cross", []repair.Step{band.With("proximal_mm", 80)}},
		{"anchors 14 mm apart", "at least 15 mm", []repair.Step{band.With("distal_mm", 26)}},
		{"thirteen steps", "too many steps", slices.Repeat([]repair.Step{clip}, 13)},
		{"a number out of range", "out of range", []repair.Step{clip.With("width_mm", 11)}},
		{"a number missing", "wrong number of values", []repair.Step{{Kind: repair.EdgeClip, Values: []float64{0}}}},
		{"an unknown kind", "no such repair", []repair.Step{{Kind: "glue"}}},
	} {
		err := repair.ValidateAll(c.steps)
		var f *fault.Field
		if !errors.As(err, &f) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; want %q", c.name, err, c.says)
		}
	}
	if err := repair.ValidateAll([]repair.Step{clip, clip, clip, band, repair.Must(repair.FullRing)}); err != nil {
		t.Error(err)
	}
}

func TestUnknownKeyPanicsAndParseRefuses(t *testing.T) {
	for _, text := range []string{"", "glue", "edge-clip,width", "edge-clip,width_mm=wide", "edge-clip,wide_mm=3", "edge-clip,width_mm=99", "edge-clip,detached=0.5", "edge-clip,width_mm=Inf"} {
		if s, err := repair.Parse(text); err == nil {
			t.Errorf("%q is taken as %v", text, s)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a key that is not there does not panic")
		}
	}()
	repair.Must(repair.EdgeClip).Value("shortening_mm")
}
