package casefile_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

const commented = `# My patient, measured on Tuesday.
annuloscope: 1
name: mine
annulus:
  # from the third view
  septal_lateral_mm: 36.0 # between A2 and P2
  height_mm: 5.9
mechanism: functional # to be checked
# what we tried
repairs:
  # first the band
  - kind: sinus-band
    shortening_mm: 20 # a guess
  # then two clips
  - kind: edge-clip # middle
    position: 0
  - kind: edge-clip # side
    position: 0.4
`

func decode(t *testing.T, data []byte) casefile.Case {
	t.Helper()
	c, err := casefile.Decode(data)
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	return c
}

func update(t *testing.T, data []byte, c casefile.Case) []byte {
	t.Helper()
	out, err := casefile.Update(data, c)
	if err != nil {
		t.Fatal(err)
	}
	same(t, decode(t, out), c, out)
	return out
}

// same fails unless got says all that want says.
func same(t *testing.T, got, want casefile.Case, file []byte) {
	t.Helper()
	if casefile.Hash(got) != casefile.Hash(want) || got.Name != want.Name || got.Title != want.Title || got.Note != want.Note || got.Patient.Imported != want.Patient.Imported {
		t.Fatalf("the updated file says another case:\n%s\nwant\n%s", file, casefile.Encode(want))
	}
}

// Issue 6: comments kept when rewritten. Nothing changed gives the same bytes.
func TestUpdateKeepsComments(t *testing.T) {
	c := decode(t, []byte(commented))
	if out := update(t, []byte(commented), c); string(out) != commented {
		t.Errorf("an unchanged case is rewritten:\n%s", out)
	}
	c.Patient.Annulus.SeptalLateralMM, c.Patient.Annulus.CommissuralMM, c.Patient.Mechanism = 37.5, 44, anatomy.Degenerative
	c.Title = "Mine: second look"
	c.Repairs = []repair.Step{c.Repairs[2], c.Repairs[0].With("shortening_mm", 18).With("slack_mm", 2), repair.Must(repair.Unloading)}
	out := string(update(t, []byte(commented), c))
	for _, want := range []string{"# My patient, measured on Tuesday.", "  # from the third view\n  septal_lateral_mm: 37.5 # between A2 and P2", "height_mm: 5.9\n",
		"commissural_mm: 44\n", "mechanism: degenerative # to be checked", "# what we tried\nrepairs:", "# first the band\n  - kind: sinus-band\n    shortening_mm: 18 # a guess\n    slack_mm: 2\n",
		"title: 'Mine: second look'", "kind: unloading"} {
		if !strings.Contains(out, want) {
			t.Errorf("missing %q in\n%s", want, out)
		}
	}
}

// A number back at its default stays written; a measurement taken back goes; the last repair leaves an empty list.
func TestUpdateRemoves(t *testing.T) {
	data := []byte("annuloscope: 1\nannulus:\n  height_mm: 3 # low\nmeasured:\n  opening_area_cm2: 5 # plan\n  depth_mm: 9\n  contact_mm: 2\n  effective_orifice_cm2: 0.3\nrepairs:\n  - kind: edge-clip\n")
	c := decode(t, data)
	c.Patient.Annulus.HeightMM = anatomy.Normal().Annulus.HeightMM
	c.Patient.Measured.OpeningAreaCM2 = math.NaN()
	c.Repairs = nil
	out := string(update(t, data, c))
	if !strings.Contains(out, "# low") || strings.Contains(out, "opening_area") || !strings.Contains(out, "repairs: []") {
		t.Errorf("got\n%s", out)
	}
}

// JSON stays JSON.
func TestUpdateJSON(t *testing.T) {
	data := []byte(`{"annuloscope": 1, "name": "mine", "annulus": {"height_mm": 3}, "repairs": [{"kind": "edge-clip", "position": 0.1}]}`)
	c := decode(t, data)
	c.Patient.Annulus.HeightMM, c.Patient.Sinus.DistanceMM.Middle, c.Note = 4.5, 9, "a \"quoted\"\nnote"
	c.Repairs = append(c.Repairs, repair.Must(repair.SinusRods))
	if out := update(t, data, c); !json.Valid(out) {
		t.Errorf("not JSON: %s", out)
	}
}

func TestUpdateRefuses(t *testing.T) {
	c := decode(t, []byte(commented))
	high := c.Clone()
	high.Patient.Annulus.HeightMM = 90
	named := c.Clone()
	named.Name = "My Case"
	for what, try := range map[string]func() ([]byte, error){
		"not a case":   func() ([]byte, error) { return casefile.Update([]byte("annulus: 3"), c) },
		"out of range": func() ([]byte, error) { return casefile.Update([]byte(commented), high) },
		"bad name":     func() ([]byte, error) { return casefile.Update([]byte(commented), named) },
	} {
		out, err := try()
		var f *fault.Field
		if !errors.As(err, &f) || out != nil {
			t.Errorf("%s: %v, %q", what, err, out)
		}
	}
}

// Random edits of the built-in cases (seed 7, 8): the file says the new case, and every comment line is still there.
func TestUpdateRandomEdits(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 100 {
		name := assets.CaseNames()[r.IntN(len(assets.CaseNames()))]
		data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		c := decode(t, data)
		for _, q := range anatomy.Parameters() {
			if r.Float64() < 0.1 {
				before := c
				if c.Patient.Set(q.Path, q.Min+r.Float64()*(q.Max-q.Min)) != nil || c.Validate() != nil {
					c = before
				}
			}
		}
		for _, s := range repair.Specs() {
			if r.Float64() < 0.3 {
				with := c.Clone()
				with.Repairs = append(with.Repairs, repair.Must(s.Kind))
				if with.Validate() == nil {
					c = with
				}
			}
		}
		out := string(update(t, data, c))
		for _, line := range strings.Split(string(data), "\n") {
			if strings.HasPrefix(line, "#") && !strings.Contains(out, line) {
				t.Fatalf("%s: lost %q", name, line)
			}
		}
	}
}

// Whatever Decode reads, Update leaves as it is, and rewrites to any other case.
func FuzzUpdate(f *testing.F) {
	f.Add([]byte(commented))
	f.Add([]byte("{annuloscope: 1, annulus.height_mm: 3, annulus: {height_mm: 4}, repairs: [{kind: edge-clip}]}"))
	f.Add([]byte("annuloscope: 0\nheart.venous_mmhg: 3\nheart: # old\n  venous_mmhg: 12\n  systemic_resistance: 1\n"))
	f.Add([]byte("annuloscope: 1\nnote: |\n  two\n  lines\nmechanism: \"none\"\nimported: true\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := casefile.Decode(data)
		if err != nil {
			return
		}
		if out, err := casefile.Update(data, c); err != nil || string(out) != string(data) {
			t.Fatalf("unchanged case: %v\n%q\n%q", err, out, data)
		}
		d := casefile.Case{Name: "other", Title: "x: y", Patient: anatomy.Normal(), Repairs: []repair.Step{repair.Must(repair.EdgeClip).With("position", 0.25)}}
		d.Patient.Annulus.HeightMM, d.Patient.Dominance, d.Patient.Imported = 4.25, anatomy.LeftDominant, !c.Patient.Imported
		out, err := casefile.Update(data, d)
		if err != nil {
			t.Fatal(err)
		}
		got, err := casefile.Decode(out)
		if err != nil {
			t.Fatalf("%v\n%q\nfrom %q", err, out, data)
		}
		same(t, got, d, out)
	})
}
