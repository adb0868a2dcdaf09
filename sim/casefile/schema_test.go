package casefile_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"
)

// compiled is the schema in a validator that also checks it against the 2020-12 metaschema.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(casefile.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(casefile.SchemaID, doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(casefile.SchemaID)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// valid is the schema's verdict on a case file in YAML or JSON.
func valid(t *testing.T, s *jsonschema.Schema, data []byte) error {
	t.Helper()
	var v any
	if err := yaml.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(doc)
}

// nested writes a case with one value at a path.
func nested(path string, value any) []byte {
	doc := map[string]any{"annuloscope": 1}
	at := doc
	keys := strings.Split(path, ".")
	for _, k := range keys[:len(keys)-1] {
		m := map[string]any{}
		at[k], at = m, m
	}
	at[keys[len(keys)-1]] = value
	out, err := json.Marshal(doc)
	if err != nil {
		panic(err)
	}
	return out
}

func repaired(kind repair.Kind, key string, value any) []byte {
	return []byte(fmt.Sprintf(`{"annuloscope":1,"repairs":[{"kind":%q,%q:%v}]}`, kind, key, value))
}

// Issue 6: the published schema accepts every built-in case and whatever Encode writes.
func TestSchemaAcceptsCases(t *testing.T) {
	s := compiled(t)
	for _, name := range assets.CaseNames() {
		data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		if err := valid(t, s, data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		c := builtIn(t, name)
		for _, spec := range repair.Specs() {
			c.Repairs = append(c.Repairs, repair.Must(spec.Kind))
		}
		if err := valid(t, s, casefile.Encode(c)); err != nil {
			t.Errorf("%s with every repair, encoded: %v", name, err)
		}
	}
}

// refused checks that decoder and schema both refuse a file.
func refused(t *testing.T, s *jsonschema.Schema, what string, data []byte) {
	t.Helper()
	if _, err := casefile.Decode(data); err == nil {
		t.Errorf("%s: the decoder reads %s", what, data)
	}
	if valid(t, s, data) == nil {
		t.Errorf("%s: the schema accepts %s", what, data)
	}
}

// Issue 6: the schema refuses what the decoder refuses for ranges, types and unknown keys, and takes both ends of every
// range, as the decoder does for a number alone.
func TestSchemaRefusesWhatTheDecoderRefuses(t *testing.T) {
	s := compiled(t)
	for _, q := range anatomy.Parameters() {
		for _, v := range []float64{math.Nextafter(q.Min, -1e9), math.Nextafter(q.Max, 1e9)} {
			refused(t, s, q.Path, nested(q.Path, v))
		}
		refused(t, s, q.Path+" misspelt", nested(q.Path+"x", q.Min))
		refused(t, s, q.Path+" in words", nested(q.Path, "3"))
		if !strings.HasPrefix(q.Path, "measured.") {
			for _, v := range []float64{q.Min, q.Max} {
				if err := valid(t, s, nested(q.Path, v)); err != nil {
					t.Errorf("%s = %g is allowed, the schema says %v", q.Path, v, err)
				}
			}
		}
	}
	for _, q := range anatomy.Choices() {
		refused(t, s, q.Path, nested(q.Path, "neither"))
	}
	for _, spec := range repair.Specs() {
		for _, p := range spec.Parameters {
			for _, v := range []float64{math.Nextafter(p.Min, -1e9), math.Nextafter(p.Max, 1e9)} {
				refused(t, s, string(spec.Kind)+"."+p.Key, repaired(spec.Kind, p.Key, v))
			}
			if p.Whole() {
				refused(t, s, string(spec.Kind)+"."+p.Key, repaired(spec.Kind, p.Key, (p.Min+p.Max)/2+0.25))
			}
			if err := valid(t, s, repaired(spec.Kind, p.Key, p.Max)); err != nil {
				t.Errorf("%s.%s = %g: %v", spec.Kind, p.Key, p.Max, err)
			}
		}
		refused(t, s, string(spec.Kind)+" unknown key", repaired(spec.Kind, "colour", 1))
	}
	clip := `{"kind":"posterior-band"}`
	for what, text := range map[string]string{
		"unknown repair":      `{"annuloscope":1,"repairs":[{"kind":"edge-clamp"}]}`,
		"no kind":             `{"annuloscope":1,"repairs":[{"width_mm":4}]}`,
		"repairs not a list":  `{"annuloscope":1,"repairs":{"kind":"edge-clip"}}`,
		"thirteen repairs":    `{"annuloscope":1,"repairs":[` + strings.TrimSuffix(strings.Repeat(clip+",", 13), ",") + `]}`,
		"no version":          `{"annulus":{"height_mm":3}}`,
		"future version":      `{"annuloscope":2}`,
		"unknown section":     `{"annuloscope":1,"anulus":{"height_mm":3}}`,
		"long title":          `{"annuloscope":1,"title":"` + strings.Repeat("a", 401) + `"}`,
		"control character":   `{"annuloscope":1,"note":"a\u0007b"}`,
		"name with capitals":  `{"annuloscope":1,"name":"My Case"}`,
		"imported as a word":  `{"annuloscope":1,"imported":"yes"}`,
		"measured in part":    `{"annuloscope":1,"measured":{"depth_mm":5}}`,
		"a list for a number": `{"annuloscope":1,"annulus":{"height_mm":[3]}}`,
	} {
		refused(t, s, what, []byte(text))
	}
}

// Every number carries its unit, its range and its meaning.
func TestSchemaIsDocumented(t *testing.T) {
	text := string(casefile.Schema())
	for _, q := range anatomy.Parameters() {
		if !strings.Contains(text, jsonWords(q.Meaning)) {
			t.Errorf("%s: its meaning is not in the schema", q.Path)
		}
	}
	if !strings.Contains(text, "Educational only") {
		t.Error("no caution in the schema")
	}
	if !bytes.Equal(casefile.Schema(), casefile.Schema()) {
		t.Error("the schema changes from call to call")
	}
}

func jsonWords(s string) string {
	b, _ := json.Marshal(s)
	return strings.Trim(string(b), `"`)
}
