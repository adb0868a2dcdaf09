package command_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/cmd/annuloscope/command"
	"annuloscope/sim/casefile"
)

// curves writes the curves of a built-in case and returns their folder.
func curves(t *testing.T, name string) string {
	t.Helper()
	dir := t.TempDir()
	if code, _, errs := run("mesh", name, "--state", "before", "-o", dir); code != 0 {
		t.Fatal(errs)
	}
	return dir
}

func number(t *testing.T, out string, keys ...string) float64 {
	t.Helper()
	var v any
	if err := json.Unmarshal([]byte(out), &v); err != nil {
		t.Fatal(err)
	}
	for _, k := range keys {
		v = v.(map[string]any)[k]
	}
	return v.(float64)
}

// Export and import by the command line: CSV and VTP, the same report within the stated tolerance, the mark in every
// output, no grade and no rule anywhere.
func TestImportAgain(t *testing.T) {
	dir := curves(t, "functional")
	at := func(n string) string { return filepath.Join(dir, n) }
	code, out, errs := run("import", "--annulus", at("annulus-curve.vtp"), "--sinus", at("sinus-curve.csv"), "--artery", at("artery-curve.vtp"),
		"--into", "functional", "-o", at("case.yaml"))
	if code != 0 || !strings.Contains(out, "sinus curve from the model's vein") || !strings.Contains(out, "Imported geometry") {
		t.Fatalf("exit %d: %s%s", code, out, errs)
	}
	band := []string{"--repair", "sinus-band", "--json"}
	_, want, _ := run(append([]string{"solve", "functional"}, band...)...)
	code, got, errs := run(append([]string{"solve", at("case.yaml")}, band...)...)
	if code != 0 {
		t.Fatal(errs)
	}
	for _, keys := range [][]string{{"before", "annulus", "septal_lateral_mm"}, {"after", "annulus", "septal_lateral_mm"}, {"after", "regurgitation", "effective_orifice_cm2"},
		{"after", "sinus", "tension_n"}, {"after", "artery", "worst_view_narrowing_pct"}, {"after", "opening", "mean_gradient_mmhg"}} {
		w, g := number(t, want, keys...), number(t, got, keys...)
		if math.Abs(w-g) > 0.01*math.Abs(w)+0.01 {
			t.Errorf("%v: %g, imported %g", keys, w, g)
		}
	}
	if !strings.Contains(got, `"imported": true`) || !strings.Contains(got, "Imported geometry") || !strings.Contains(got, `"selection": null`) ||
		!strings.Contains(got, `"class": ""`) || strings.Contains(got, `"class": "s`) || strings.Contains(got, `"class": "m`) {
		t.Errorf("imported geometry is graded or not marked:\n%s", got)
	}
	for _, args := range [][]string{{"solve", at("case.yaml")}, {"mesh", at("case.yaml"), "-o", at("again")}, {"set", at("case.yaml")},
		{"sweep", "plan", at("case.yaml"), "--axis", "annulus.height_mm=5,6", "-o", at("m.yaml")}} {
		code, out, errs := run(args...)
		if code != 0 || !strings.Contains(out, "Imported geometry") {
			t.Errorf("%v: exit %d, no mark in\n%s%s", args[:1], code, out, errs)
		}
	}
	for args, file := range map[string]string{"figure " + at("case.yaml") + " -o " + at("x.svg"): "x.svg", "figure " + at("case.yaml") + " --screen -o " + at("y.svg"): "y.svg"} {
		if code, _, errs := run(strings.Fields(args)...); code != 0 {
			t.Fatal(errs)
		}
		data, err := os.ReadFile(at(file))
		if err != nil || strings.Count(string(data), "IMPORTED GEOMETRY") < 3 {
			t.Errorf("%s: %v, the watermark is there %d times", file, err, strings.Count(string(data), "IMPORTED GEOMETRY"))
		}
	}
	for _, name := range []string{"again/annulus-curve.csv", "again/sinus-curve.csv"} {
		if data, err := os.ReadFile(at(name)); err != nil || !strings.Contains(string(data), "Imported geometry") {
			t.Errorf("%s: %v, no mark", name, err)
		}
	}
}

// A file of the user's own keeps its comments and what the curves do not say.
func TestImportIntoAFile(t *testing.T) {
	dir := curves(t, "functional")
	mine := filepath.Join(dir, "mine.yaml")
	text := "# bench heart 7\nannuloscope: 1\nname: bench\nannulus:\n  height_mm: 3  # by hand\nheart:\n  rate_per_min: 90\n"
	if err := os.WriteFile(mine, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, errs := run("import", "--annulus", filepath.Join(dir, "annulus-curve.csv"), "--into", mine, "--name", "bench-two")
	if code != 0 || !strings.Contains(errs, "annulus points from their fitted curve") {
		t.Fatalf("exit %d: %s", code, errs)
	}
	c, err := casefile.Decode([]byte(out))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out, "# bench heart 7") || !strings.Contains(out, "height_mm: 5.9 # by hand") || c.Patient.Heart.RatePerMin != 90 ||
		!c.Patient.Imported || c.Name != "bench-two" || c.Patient.Sinus.LengthMM != 109 {
		t.Errorf("comments or numbers are lost:\n%s", out)
	}
}

// Set changes numbers in place.
func TestSet(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.yaml")
	if err := os.WriteFile(file, []byte("# mine\nannuloscope: 1\nannulus:\n  height_mm: 3  # low\nrepairs:\n  - kind: edge-clip  # first\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, errs := run("set", file, "annulus.height_mm=4", "repair.1.position=0.2", "mechanism=functional", "-o", file)
	if code != 0 || !strings.Contains(out, "Educational only") {
		t.Fatalf("exit %d: %s", code, errs)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"# mine", "height_mm: 4 # low", "kind: edge-clip # first", "position: 0.2", "mechanism: functional"} {
		if !strings.Contains(string(data), want) {
			t.Errorf("%q is missing in\n%s", want, data)
		}
	}
	j := filepath.Join(filepath.Dir(file), "mine.json")
	if code, _, errs := run("set", file, "annulus.height_mm=7", "-o", j); code != 0 {
		t.Fatal(errs)
	}
	if text, err := os.ReadFile(j); err != nil || !json.Valid(text) || !strings.Contains(string(text), `"height_mm": 7`) {
		t.Errorf("%v: as JSON:\n%s", err, text)
	}
	for _, bad := range [][]string{{"set", file, "annulus.height_mm=40"}, {"set", file, "annulus.hight_mm=4"}, {"set", file, "imported=false"}} {
		if code, out, errs := run(bad...); code != command.BadCase || out != "" {
			t.Errorf("%v: exit %d, %q %q", bad[2:], code, out, errs)
		}
	}
	if now, _ := os.ReadFile(file); string(now) != string(data) {
		t.Error("a refused change was written")
	}
}

func TestImportRefusesBadInput(t *testing.T) {
	dir := curves(t, "normal")
	at := func(n string) string { return filepath.Join(dir, n) }
	if err := os.WriteFile(at("bad.csv"), []byte("x,y,z\n1,2,three\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"--annulus", at("none.csv")}, command.BadCase, "no such file"},
		{[]string{"--annulus", at("bad.csv")}, command.BadCase, "line 2, column 3"},
		{[]string{"--annulus", at("annulus-curve.csv"), "--unit", "cm"}, command.BadCase, "states another unit"},
		{[]string{"--annulus", at("annulus-curve.vtp"), "--unit", "cm"}, command.BadCase, "the points look like mm"},
		{[]string{"--annulus", at("annulus-curve.csv"), "--plane", "0,0"}, command.Usage, "three numbers"},
		{[]string{"--annulus", at("annulus-curve.csv"), "--plane", "0,0,0"}, command.BadCase, "no direction"},
		{[]string{"--annulus", at("annulus-curve.csv"), "--landmark", "a3=1,2,3"}, command.Usage, "no such landmark"},
		{[]string{"--annulus", at("annulus-curve.csv"), "--landmark", "posteromedial=20,0,0"}, command.BadCase, "give both or none"},
		{[]string{"--annulus", at("annulus-curve.csv"), "--artery", at("artery-curve.csv")}, command.BadCase, "without the sinus"},
		{[]string{"--annulus", at("sinus-curve.csv")}, command.BadCase, "annulus"},
		{[]string{"--annulus", at("annulus-curve.csv"), "--name", "Mr X"}, command.BadCase, "not a name"},
	} {
		code, out, errs := run(append([]string{"import"}, c.args...)...)
		if code != c.code || !strings.Contains(errs, c.says) || out != "" {
			t.Errorf("%v: exit %d, want %d; says %q, want %q; writes %q", c.args, code, c.code, errs, c.says, out)
		}
	}
}
