package casefile_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

func builtIn(t *testing.T, name string) casefile.Case {
	t.Helper()
	data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := casefile.Decode(data)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return c
}

func TestBuiltInCasesRoundTrip(t *testing.T) {
	for _, name := range assets.CaseNames() {
		c := builtIn(t, name)
		if c.Name != name || !strings.Contains(c.Note, "Invented") {
			t.Errorf("%s: name %q, note %q must say that the patient is invented", name, c.Name, c.Note)
		}
		for _, s := range repair.Specs() {
			if s.Kind != repair.FullRing {
				c.Repairs = append(c.Repairs, repair.Must(s.Kind))
			}
		}
		back, err := casefile.Decode(casefile.Encode(c))
		if err != nil {
			t.Fatalf("%s does not come back: %v", name, err)
		}
		if j, err := casefile.Decode(casefile.EncodeJSON(c)); err != nil || casefile.Hash(j) != casefile.Hash(c) || !json.Valid(casefile.EncodeJSON(c)) {
			t.Errorf("%s does not come back from JSON: %v\n%s", name, err, casefile.EncodeJSON(c))
		}
		if casefile.Hash(back) != casefile.Hash(c) || back.Title != c.Title || len(back.Repairs) != len(c.Repairs) {
			t.Errorf("%s changes on the way through its file", name)
		}
	}
}

func TestJSONIsRead(t *testing.T) {
	c, err := casefile.Decode([]byte(`{"annuloscope": 1, "annulus": {"septal_lateral_mm": 34}, "repairs": [{"kind": "edge-clip", "position": 0.1}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if c.Patient.Annulus.SeptalLateralMM != 34 || c.Repairs[0].Value("position") != 0.1 {
		t.Errorf("read %v and %v", c.Patient.Annulus.SeptalLateralMM, c.Repairs[0])
	}
}

// Every kind of bad file gives one error naming the field, what is allowed and, where there is one, the line.
func TestBadFiles(t *testing.T) {
	const head = "annuloscope: 1\n"
	for _, c := range []struct{ name, text, path, says string }{
		{"unknown key", head + "annulus:\n  septal_latteral_mm: 30\n", "annulus.septal_latteral_mm", "did you mean annulus.septal_lateral_mm"},
		{"unknown section", head + "anulus:\n  height_mm: 3\n", "anulus", "did you mean annulus"},
		{"unit in the value", head + "annulus:\n  height_mm: 3 mm\n", "annulus.height_mm", "not a number"},
		{"quoted number", head + "annulus:\n  height_mm: \"3\"\n", "annulus.height_mm", "not a number"},
		{"out of range", head + "annulus:\n  height_mm: 90\n", "annulus.height_mm", "0 to 14 mm"},
		{"not a number", head + "annulus:\n  height_mm: .nan\n", "annulus.height_mm", "not a number"},
		{"infinite", head + "annulus:\n  height_mm: .inf\n", "annulus.height_mm", "not a number"},
		{"list for a number", head + "annulus:\n  height_mm: [1]\n", "annulus.height_mm", "single value"},
		{"given twice", head + "annulus:\n  height_mm: 1\n  height_mm: 2\n", "annulus.height_mm", "twice"},
		{"word not a choice", head + "mechanism: worn\n", "mechanism", "functional"},
		{"measured in part", head + "measured:\n  depth_mm: 5\n", "measured", "belong together"},
		{"anchors crossed", head + "repairs:\n  - kind: sinus-band\n    proximal_mm: 80\n    distal_mm: 60\n", "sinus-band.distal_mm", "cross"},
		{"anchor off the vein", head + "repairs:\n  - kind: sinus-band\n    distal_mm: 140\n", "sinus-band.distal_mm", "beyond the end"},
		{"clip off the line", head + "repairs:\n  - kind: edge-clip\n    position: 1.5\n", "edge-clip.position", "-0.85 to 0.85"},
		{"four clips", head + "repairs:\n" + strings.Repeat("  - kind: edge-clip\n", 4), "repairs", "at most"},
		{"unknown repair", head + "repairs:\n  - kind: edge-clamp\n", "repair", "did you mean edge-clip"},
		{"no version", "annulus:\n  height_mm: 3\n", "annuloscope", "version"},
		{"future version", "annuloscope: 99\n", "annuloscope", "newer"},
		{"alias", head + "annulus: &a\n  height_mm: 3\n", "", "aliases"},
		{"exponential alias", head + "a: &a [x,x]\nb: &b [*a,*a]\nc: [*b,*b]\n", "", "aliases"},
		{"two documents", head + "---\n" + head, "", "more than one document"},
		{"truncated", "{\"annuloscope\": 1, \"annulus\": {", "", "complete"},
		{"binary", "annuloscope: 1\x00", "", "not text"},
		{"not UTF-8", "annuloscope: \xff\xfe", "", "not text"},
		{"huge", head + "# " + strings.Repeat("x", casefile.MaxBytes), "", "too large"},
		{"empty", "  \n", "", "empty"},
		{"a list", "- 1\n", "", "keys and values"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := casefile.Decode([]byte(c.text))
			var f *fault.Field
			if !errors.As(err, &f) {
				t.Fatalf("error %v is not a field error", err)
			}
			allowed := strings.Contains(f.Error(), c.says) || strings.Contains(f.Allowed, c.says) || (c.name == "four clips" && strings.Contains(f.Problem, "too many"))
			if !strings.HasPrefix(f.Path, c.path) || !allowed {
				t.Errorf("%v: path %q, want %q and a word of %q", f, f.Path, c.path, c.says)
			}
			if c.path != "" && c.name != "no version" && f.Line == 0 && c.name != "four clips" && c.name != "measured in part" {
				t.Errorf("%v: no line", f)
			}
		})
	}
}

func TestDefaultsAreInTheirRanges(t *testing.T) {
	for _, q := range anatomy.Parameters() {
		if !math.IsNaN(q.Default) && q.Check(q.Default) != nil {
			t.Errorf("%s: default %v outside %s", q.Path, q.Default, q.Range())
		}
		if q.Meaning == "" || q.Source == "" || q.Unit == "" || q.Step <= 0 {
			t.Errorf("%s: incomplete definition", q.Path)
		}
	}
	p := anatomy.Normal()
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
	for _, s := range repair.Specs() {
		if err := repair.Must(s.Kind).Validate(); err != nil {
			t.Error(err)
		}
	}
}

func TestRepairOnTheCommandLine(t *testing.T) {
	s, err := repair.Parse("edge-clip,position=0.2,width_mm=4")
	if err != nil || s.Value("position") != 0.2 || s.Value("reach_mm") != 8 {
		t.Fatalf("%v, %v", s, err)
	}
	if again, err := repair.Parse(s.String()); err != nil || again.String() != s.String() {
		t.Errorf("%v does not come back: %v", s, err)
	}
	for _, bad := range []string{"", "edge-clip,position", "edge-clip,position=x", "edge-clip,positon=1", "edge-clip,detached=0.5", "edge-clip,position=NaN"} {
		if _, err := repair.Parse(bad); err == nil {
			t.Errorf("%q is accepted", bad)
		}
	}
}

func FuzzDecode(f *testing.F) {
	for _, name := range assets.CaseNames() {
		data, _ := assets.Cases.ReadFile("cases/" + name + ".yaml")
		f.Add(data)
	}
	f.Add([]byte("annuloscope: 0\nheart:\n  venous_mmhg: 12\n  systemic_resistance: 1\nheart.venous_mmhg: 3\n"))
	f.Add([]byte("annuloscope: 1\nrepairs:\n  - kind: sinus-band\n    shortening_mm: 4\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := casefile.Decode(data)
		if err != nil {
			var g *fault.Field
			if !errors.As(err, &g) {
				t.Fatalf("%v is not a field error", err)
			}
			return
		}
		again, err := casefile.Decode(casefile.Encode(c))
		if err != nil || !bytes.Equal(casefile.Encode(again), casefile.Encode(c)) {
			t.Fatalf("a case that was read does not come back: %v", err)
		}
	})
}
