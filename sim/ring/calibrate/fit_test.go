package calibrate

import (
	"bytes"
	"encoding/json"
	"go/format"
	"math"
	"strings"
	"testing"

	"annuloscope/sim/ring"
)

// The fit started from the priors gives the constants in sim/ring/default.go; it explains the cinch within one standard
// deviation, and its weak directions are left at the priors.
// `annuloscope calibrate fit -o sim/ring/default.go` writes that file anew.
func TestFitIsTheDefault(t *testing.T) {
	c, rep := Fit()
	for _, s := range rep.Steps {
		t.Logf("misfit %.5f, step %.2g", s.Misfit, s.Change)
	}
	for _, r := range rep.Rows {
		t.Logf("%s: published %g ± %.3g, model %.3g, gap %+.1f SD (%s)", r.Name, r.Published, r.SD, r.Model, (r.Model-r.Published)/r.SD, r.Source)
	}
	identified := 0
	for k, s := range rep.Singular {
		t.Logf("singular value %.3g along %s", s, direction(rep, k))
		if s >= Identified {
			identified++
		}
	}
	t.Logf("secant stiffness %.3f N/mm, published 0.33 (derived from S45)", rep.SecantNPerMM)
	if last := rep.Steps[len(rep.Steps)-1]; last.Change > 2e-4 {
		t.Errorf("the fit still moves by %g", last.Change)
	}
	if identified == 0 || identified == len(rep.Singular) {
		t.Errorf("%d of %d directions identified", identified, len(rep.Singular))
	}
	for _, r := range rep.Rows[:2] {
		if math.Abs(r.Model-r.Published) > r.SD {
			t.Errorf("%s: model %g", r.Name, r.Model)
		}
	}
	now := ring.Default()
	for _, e := range Entries() {
		if got, want := *field(&now, e.Name), *field(&c, e.Name); math.Abs(got-want) > 1e-5*want {
			t.Errorf("%s: default.go has %g, the fit gives %g; write the file anew", e.Name, got, want)
		}
	}
}

// Every constant has one entry, one tissue and a reason; no tissue is named twice.
func TestEveryConstantHasProvenance(t *testing.T) {
	seen := map[string]string{}
	for _, e := range Entries() {
		if e.Tissue == "" || e.Reason == "" || e.Unit == "" {
			t.Errorf("%s: incomplete", e.Name)
		}
		key := e.Tissue + "/" + e.Unit
		if other, ok := seen[key]; ok {
			t.Errorf("%s and %s stand for the same tissue: %s", e.Name, other, e.Tissue)
		}
		seen[key] = e.Name
	}
	data, err := json.Marshal(Prior())
	if err != nil {
		t.Fatal(err)
	}
	var fields map[string]any
	if err := json.Unmarshal(data, &fields); err != nil {
		t.Fatal(err)
	}
	delete(fields, "WallRigid") // a question, not a constant
	if len(fields) != len(Entries()) {
		t.Errorf("%d constants, %d entries", len(fields), len(Entries()))
	}
}

// The predictions are finite and printed with their gaps, which are for the reader and asserted nowhere, save the one
// that is a direction.
func TestPredictions(t *testing.T) {
	rows := Predict(ring.Default())
	var b strings.Builder
	if err := WriteTable(&b, rows); err != nil {
		t.Fatal(err)
	}
	t.Log("\n" + b.String())
	for _, p := range rows {
		if math.IsNaN(p.Model) || math.IsInf(p.Model, 0) {
			t.Errorf("%s: model %g", p.Name, p.Model)
		}
		if p.Source == "S85" && p.Model != p.Published {
			t.Errorf("%s: it does not", p.Name)
		}
	}
}

// Signs that issue 2 asks for: closer, lower, stiffer wall, softer foundation all give more.
func TestSensitivityDirections(t *testing.T) {
	list := Sensitivity(ring.Default())
	var b strings.Builder
	if err := WriteSensitivity(&b, list); err != nil {
		t.Fatal(err)
	}
	t.Log("\n" + b.String())
	loss := map[string]float64{}
	for _, v := range list {
		if !v.Status.OK() {
			t.Errorf("%s: %v", v.Name, v.Status)
		}
		loss[v.Name] = v.SeptalLateralMM
	}
	for _, pair := range [][2]string{
		{"elevation 0 mm", "elevation 10 mm"},
		{"distance 4 mm, elevation 0 mm", "distance 14 mm, elevation 0 mm"},
		{"atrial wall twice as stiff", "atrial wall half as stiff"},
		{"foundation half as stiff", "foundation twice as stiff"},
	} {
		if loss[pair[0]] <= loss[pair[1]] {
			t.Errorf("%s gives %g mm, %s gives %g mm", pair[0], loss[pair[0]], pair[1], loss[pair[1]])
		}
	}
}

// The written forms can be read back.
func TestWriters(t *testing.T) {
	rep := FitReport{Parameters: []string{"FoundationSeptal"}, Singular: []float64{2}, Directions: [][]float64{{1}}}
	var b bytes.Buffer
	if err := WriteGo(&b, Prior(), rep); err != nil {
		t.Fatal(err)
	}
	if _, err := format.Source(b.Bytes()); err != nil {
		t.Errorf("not Go: %v", err)
	}
	b.Reset()
	if err := WriteJSON(&b, Prior(), rep); err != nil {
		t.Fatal(err)
	}
	if !json.Valid(b.Bytes()) {
		t.Error("not JSON")
	}
}
