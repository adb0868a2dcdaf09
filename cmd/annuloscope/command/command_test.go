package command_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/cmd/annuloscope/command"
	"annuloscope/sim/valve"
)

func run(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = command.Run(args, command.Streams{In: strings.NewReader(""), Out: &o, Err: &e})
	return code, o.String(), e.String()
}

// Bad input: one clear line naming field, value and range, the right exit code, nothing on standard output.
func TestBadInput(t *testing.T) {
	dir := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"solve"}, command.Usage, "<case>"},
		{[]string{"solve", "functional", "--nonsense"}, command.Usage, "nonsense"},
		{[]string{"solve", "functoinal"}, command.BadCase, "did you mean functional?"},
		{[]string{"solve", "functional", "--set", "annulus.height_mm=99"}, command.BadCase, "0 to 14 mm"},
		{[]string{"solve", "functional", "--set", "annulus.height_mm=3mm"}, command.BadCase, "not a number"},
		{[]string{"solve", "functional", "--set", "annulus.hieght_mm=3"}, command.BadCase, "did you mean annulus.height_mm?"},
		{[]string{"solve", "functional", "--set", "annulus.height_mm"}, command.Usage, "path=value"},
		{[]string{"solve", "functional", "--set", "repair.1.width_mm=3"}, command.BadCase, "no such repair step"},
		{[]string{"solve", "functional", "--repair", "edge-clamp"}, command.BadCase, "did you mean edge-clip?"},
		{[]string{"solve", "functional", "--repair", "edge-clip,position=2"}, command.BadCase, "-0.85 to 0.85"},
		{[]string{"solve", "functional", "--repair", "sinus-band,proximal_mm=80,distal_mm=60"}, command.BadCase, "cross"},
		{[]string{"solve", file("bad.yaml", "annuloscope: 1\nannulus:\n  height_mm: tall\n")}, command.BadCase, "line 3"},
		{[]string{"solve", file("cut.json", `{"annuloscope": 1, "annulus": {`)}, command.BadCase, "complete"},
		{[]string{"solve", file("binary.yaml", "\x00\x01\x02")}, command.BadCase, "not text"},
		{[]string{"solve", file("huge.yaml", "annuloscope: 1\n#"+strings.Repeat("x", 1<<20))}, command.BadCase, "too large"},
		{[]string{"solve", dir}, command.Failed, "folder"},
		{[]string{"figure", "functional", "-o", filepath.Join(dir, "x.bmp")}, command.Usage, ".png, .svg"},
		{[]string{"figure", "functional", "-o", filepath.Join(dir, "x.png"), "--scale", "3"}, command.Usage, "1, 2, 4"},
		{[]string{"figure", "functional", "-o", filepath.Join(dir, "x.png"), "--view", "below"}, command.Usage, "atrium"},
		{[]string{"figure", "functional", "-o", filepath.Join(dir, "no", "such", "folder", "x.png")}, command.Failed, "no such file"},
	} {
		code, out, errs := run(c.args...)
		if code != c.code || !strings.Contains(errs, c.says) {
			t.Errorf("%v: exit %d, want %d; says %q, want %q", c.args, code, c.code, errs, c.says)
		}
		if out != "" {
			t.Errorf("%v: writes to standard output: %q", c.args, out)
		}
	}
	left, _ := filepath.Glob(filepath.Join(dir, "*.png"))
	if hidden, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left)+len(hidden) > 0 {
		t.Errorf("left behind: %v %v", left, hidden)
	}
}

// Every command's output carries the caution.
func TestCautionEverywhere(t *testing.T) {
	for _, args := range [][]string{{"cases"}, {"parameters"}, {"repairs"}, {"glossary"}, {"version"}, {"--help"}, {"solve", "normal"},
		{"solve", "normal", "--json", "--quiet"}, {"open", "--words"}} {
		code, out, _ := run(args...)
		plain := strings.Join(strings.Fields(out), " ")
		if code != command.Done || !strings.Contains(plain, "Educational only: not for diagnosis or treatment planning") {
			t.Errorf("%v: exit %d, no caution in %q", args, code, out)
		}
	}
}

func TestSolveJSONIsTheReport(t *testing.T) {
	code, out, errs := run("solve", "functional", "--repair", "sinus-band,shortening_mm=15", "--set", "sinus.elevation.middle_mm=9", "--json")
	if code != command.Done {
		t.Fatal(errs)
	}
	var r valve.Report
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	if r.After.Sinus.ShorteningMM <= 0 || r.After.Annulus.SeptalLateralMM >= r.Before.Annulus.SeptalLateralMM || len(r.Provenance.CaseSHA256) != 64 {
		t.Errorf("report %+v", r.After.Sinus)
	}
	if _, again, _ := run("solve", "functional", "--repair", "sinus-band,shortening_mm=15", "--set", "sinus.elevation.middle_mm=9", "--json"); again != out {
		t.Error("the same command gives other bytes")
	}
}

func TestWordsWithoutADisplay(t *testing.T) {
	code, out, _ := run("open", "--words")
	for _, want := range []string{"Sinus band", "Edge clip", "Septal-lateral diameter", "serve", "figure"} {
		if code != command.Done || !strings.Contains(out, want) {
			t.Errorf("exit %d, %q is missing", code, want)
		}
	}
}

func TestFigure(t *testing.T) {
	name := filepath.Join(t.TempDir(), "valve.png")
	if code, _, errs := run("figure", "functional", "--repair", "edge-clip", "--phase", "diastole", "-o", name, "--width", "640", "--height", "480"); code != command.Done {
		t.Fatal(errs)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds().Dx() != 640 || img.Bounds().Dy() < 480 {
		t.Errorf("size %v", img.Bounds())
	}
	colours := map[[3]uint32]int{}
	for y := 0; y < 480; y += 3 {
		for x := 0; x < 640; x += 3 {
			r, g, b, _ := img.At(x, y).RGBA()
			colours[[3]uint32{r >> 12, g >> 12, b >> 12}]++
		}
	}
	if len(colours) < 30 {
		t.Errorf("only %d colours: the valve is not in the picture", len(colours))
	}
	if !bytes.Contains(data, []byte("ducational only")) {
		t.Error("the file does not carry the caution in its text")
	}
}

func TestBenchCountsEveryMove(t *testing.T) {
	moves := 10
	if raceDetector { // some ten times slower
		moves = 2
	}
	code, out, errs := run("bench", "--moves", fmt.Sprint(moves), "--json")
	if code != command.Done {
		t.Fatal(errs)
	}
	var b struct {
		Sizes []struct {
			First struct {
				Count int     `json:"count"`
				P50   float64 `json:"p50_ms"`
			} `json:"first_picture"`
		} `json:"sizes"`
	}
	if err := json.Unmarshal([]byte(out), &b); err != nil || len(b.Sizes) != 3 {
		t.Fatalf("%v in %s", err, out)
	}
	for _, s := range b.Sizes {
		if s.First.Count != moves || s.First.P50 <= 0 {
			t.Errorf("counted %+v", s.First)
		}
	}
}
