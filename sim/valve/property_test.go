package valve_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand"
	"testing"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Any patient and repairs in the allowed ranges give finite numbers, or a refusal that names a field.
func TestFiniteInTheAllowedRange(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	solved, refused := 0, 0
	for i := range 8 {
		c := load(t, []string{"functional", "normal", "flail-p2"}[i%3])
		for _, p := range anatomy.Parameters() {
			if r.Float64() < 0.15 && !math.IsNaN(*p.At(&c.Patient)) { // an eighth of the range either way, or anywhere in it
				at := p.Min + r.Float64()*(p.Max-p.Min)
				if r.Float64() < 0.7 {
					at = math.Min(math.Max(*p.At(&c.Patient)+(r.Float64()-0.5)*(p.Max-p.Min)/4, p.Min), p.Max)
				}
				if p.Step >= 1 && p.Max-p.Min <= 3 {
					at = math.Round(at)
				}
				*p.At(&c.Patient) = at
			}
		}
		for _, spec := range repair.Specs() {
			if r.Float64() < 0.3 {
				c.Repairs = append(c.Repairs, repair.Must(spec.Kind))
			}
		}
		rep, err := valve.Solve(c, valve.Options{Circulation: i == 1})
		if err != nil {
			var f *fault.Field
			if !errors.As(err, &f) || f.Path == "" {
				t.Errorf("patient %d: %v names no field", i, err)
			}
			refused++
			continue
		}
		solved++
		if _, err := json.Marshal(rep); err != nil {
			t.Errorf("patient %d: %v", i, err)
		}
		for _, q := range rep.Changes() {
			if math.IsInf(q.Before, 0) || math.IsInf(q.After, 0) {
				t.Errorf("patient %d: %s is %v → %v", i, q.Quantity.Path, q.Before, q.After)
			}
		}
	}
	t.Logf("%d solved, %d refused", solved, refused)
	if solved < 4 {
		t.Errorf("only %d of 8 solved: the test says little", solved)
	}
}

func quickly(t *testing.T, c casefile.Case) valve.Report {
	t.Helper()
	r, err := valve.Solve(c, valve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Leak never rises with more contact: leaflets longer all round by a little.
func TestMoreLeafletNeverLeaksMore(t *testing.T) {
	for _, c := range []casefile.Case{load(t, "functional"), with(t, load(t, "functional"), "leaflet.posterior_restriction", 0.2), load(t, "functional", repair.EdgeClip)} {
		last, lastContact := math.Inf(1), 0.0
		for growth := 0.92; growth < 1.3; growth += 0.08 {
			s := quickly(t, with(t, c, "leaflet.growth", growth)).After
			leak := float64(s.Regurgitation.EffectiveOrificeCM2)
			if leak > last+1e-6 || s.Coaptation.ContactMM.Mean < lastContact-1e-6 {
				t.Errorf("%s, growth %.2f: leak %.4f after %.4f cm², contact %.2f after %.2f mm", c.Name, growth, leak, last, s.Coaptation.ContactMM.Mean, lastContact)
			}
			last, lastContact = leak, s.Coaptation.ContactMM.Mean
		}
	}
}

// The opening never rises with one more clip or stitch.
func TestOneMoreBondNeverOpens(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	s := valve.NewSolver()
	for range 2 {
		c := load(t, "functional")
		last := math.Inf(1)
		for n := range 4 {
			if n > 0 {
				kind := []repair.Kind{repair.EdgeClip, repair.EdgeStitch}[r.Intn(2)]
				c.Repairs = append(c.Repairs, repair.Must(kind).With("position", 1.6*r.Float64()-0.8).With("width_mm", 2+5*r.Float64()))
			}
			rep, err := s.Solve(c, valve.Options{})
			if err != nil {
				t.Fatal(err)
			}
			area := float64(rep.After.Opening.AnatomicAreaCM2)
			if area > last+1e-6 {
				t.Errorf("%v: opening %.4f after %.4f cm²", c.Repairs, area, last)
			}
			last = area
		}
	}
}

// A clip that holds one leaflet only bonds nothing: leak and opening are those without it, and it says so.
func TestDetachedClip(t *testing.T) {
	c := load(t, "functional", repair.EdgeClip)
	c.Repairs[0] = c.Repairs[0].With("detached", 1)
	r := once(t, c)
	if d := math.Abs(float64(r.After.Regurgitation.EffectiveOrificeCM2 - r.Before.Regurgitation.EffectiveOrificeCM2)); d > 1e-6 {
		t.Errorf("leak %v → %v", r.Before.Regurgitation.EffectiveOrificeCM2, r.After.Regurgitation.EffectiveOrificeCM2)
	}
	if len(r.After.Opening.OrificesCM2) != 1 || r.After.Clips[0].Condition != "detached" {
		t.Errorf("orifices %v, clip %+v", r.After.Opening.OrificesCM2, r.After.Clips[0])
	}
	found := false
	for _, f := range r.Findings {
		found = found || f.Code == "clip-detached"
	}
	if !found {
		t.Errorf("findings %+v", r.Findings)
	}
}

// With a ring the stitch carries less and less of the annulus's widening is left: the durability argument (common practice,
// no source). Staged in any order the outcome is the same.
func TestStitchWithAndWithoutRing(t *testing.T) {
	value := func(r valve.Report, path string) float64 {
		q, ok := valve.FindQuantity(path)
		if !ok {
			t.Fatal(path)
		}
		return q.Of(&r.After)
	}
	bare, ring := load(t, "functional", repair.EdgeStitch), load(t, "functional", repair.EdgeStitch, repair.FullRing)
	a, b := quickly(t, bare), quickly(t, ring)
	for _, path := range []string{"bond.tension_n", "bond.annulus_left_mm"} {
		x, y := value(a, path), value(b, path)
		t.Logf("%s: %.2f without a ring, %.2f with one", path, x, y)
		if !(y < x) {
			t.Errorf("%s: %.3f without a ring, %.3f with one", path, x, y)
		}
	}
	ring.Repairs[0], ring.Repairs[1] = ring.Repairs[1], ring.Repairs[0]
	c := quickly(t, ring)
	if d := math.Abs(float64(b.After.Regurgitation.EffectiveOrificeCM2 - c.After.Regurgitation.EffectiveOrificeCM2)); d > 1e-9 {
		t.Errorf("the order of stitch and ring changes the leak by %g", d)
	}
	if len(b.Later) != 2 || b.Later[0].Text == "" || b.Later[0].Source == "" {
		t.Errorf("what they close off: %+v", b.Later)
	}
	for _, spec := range repair.Specs() {
		if spec.ClosesOff == "" || spec.LaterSource() == "" {
			t.Errorf("%s says nothing about later", spec.Kind)
		}
	}
}
