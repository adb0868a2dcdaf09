package command_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"image/gif"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"annuloscope/cmd/annuloscope/command"
)

// The three forms of a comparison, solved each by itself, say the same to the last digit, with the notice and the sentence.
func TestCompareInThreeForms(t *testing.T) {
	args := []string{"compare", "functional", "--plan", "late: sinus-band,shortening_mm=20; edge-clip", "--plan", "clip: edge-clip,width_mm=6"}
	code, text, errs := run(args...)
	if code != command.Done {
		t.Fatal(errs)
	}
	_, table, _ := run(append(args, "--csv")...)
	_, data, _ := run(append(args, "--json")...)
	var doc struct {
		Notice, Sentence string
		CaseSHA256       string `json:"case_sha256"`
		Plans            []struct {
			Name    string
			Repairs []string
		}
		Ranking []struct {
			Quantity string
			Values   []*float64
			Verdicts []string
		}
	}
	if err := json.Unmarshal([]byte(data), &doc); err != nil {
		t.Fatal(err)
	}
	for form, out := range map[string]string{"text": text, "csv": table, "json": data} {
		for _, want := range []string{"ducational only", doc.Sentence} {
			if !strings.Contains(out, want) {
				t.Errorf("%s: no %q", form, want)
			}
		}
	}
	if len(doc.Plans) != 2 || doc.Plans[1].Name != "clip" || !strings.Contains(doc.Plans[1].Repairs[0], "width_mm=6") || len(doc.CaseSHA256) != 64 {
		t.Errorf("plans %+v of case %q", doc.Plans, doc.CaseSHA256)
	}
	rows := readCSV(t, table)
	for _, q := range doc.Ranking {
		row, ok := rows[q.Quantity]
		if !ok {
			t.Errorf("%s is not in the table", q.Quantity)
			continue
		}
		for i, at := range []int{3, 4, 7} { // untreated; the two plans, each followed by change and verdict
			v, err := strconv.ParseFloat(row[at], 64)
			if (err != nil) != (q.Values[i] == nil) || err == nil && v != *q.Values[i] {
				t.Errorf("%s column %d: %q and %v", q.Quantity, i, row[at], q.Values[i])
			}
			if i > 0 && err == nil && row[3] != "" {
				first, _ := strconv.ParseFloat(row[3], 64)
				if change, _ := strconv.ParseFloat(row[at+1], 64); math.Abs(change-(v-first)) > 1e-12 {
					t.Errorf("%s column %d: change %v", q.Quantity, i, change)
				}
			}
		}
	}
}

// readCSV returns the rows by their path.
func readCSV(t *testing.T, text string) map[string][]string {
	t.Helper()
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]string{}
	for _, row := range all[1:] {
		out[row[0]] = row
	}
	return out
}

func TestFilmsAndHandouts(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	film := []string{"film", "functional", "--what", "cut", "--change", "sinus-band.shortening_mm=0:20", "--frames", "3", "--width", "400", "--height", "300"}
	if code, _, errs := run(append(film, "-o", at("cut.gif"))...); code != command.Done {
		t.Fatal(errs)
	}
	data, err := os.ReadFile(at("cut.gif"))
	if err != nil {
		t.Fatal(err)
	}
	if g, err := gif.DecodeAll(bytes.NewReader(data)); err != nil || len(g.Image) != 3 {
		t.Errorf("film: %v", err)
	}
	if code, _, errs := run(append(film, "-o", at("frames"))...); code != command.Done {
		t.Fatal(errs)
	}
	for _, name := range []string{"frame-0001.png", "frame-0003.png", "about.txt"} {
		b, err := os.ReadFile(filepath.Join(at("frames"), name))
		if err != nil || !bytes.Contains(b, []byte("ducational only")) {
			t.Errorf("%s: %v, or without the caution", name, err)
		}
	}
	if code, _, errs := run(append(film, "-o", at("frames"))...); code != command.Failed || !strings.Contains(errs, "not empty") {
		t.Errorf("into a folder that holds something: exit %d, %s", code, errs)
	}
	if code, _, errs := run("handout", "functional", "--plan", "clip: edge-clip", "-o", at("page.pdf"), "--language", "de"); code != command.Done {
		t.Fatal(errs)
	}
	if b, err := os.ReadFile(at("page.pdf")); err != nil || !bytes.HasPrefix(b, []byte("%PDF-")) {
		t.Errorf("handout: %v", err)
	}
}

// A wrong order writes nothing, says what is allowed and ends with the code of its kind.
func TestFiguresThatCannotBe(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{command.Usage, "allowed: .png, .svg", []string{"figure", "functional", "-o", filepath.Join(dir, "x.gif")}},
		{command.Usage, "valve", []string{"figure", "functional", "--what", "valves", "-o", filepath.Join(dir, "x.png")}},
		{command.Usage, "does not move", []string{"film", "functional", "--what", "strip", "-o", filepath.Join(dir, "x.gif")}},
		{command.Usage, "path=from:to", []string{"film", "functional", "--change", "sinus-band.shortening_mm=3", "-o", filepath.Join(dir, "x.gif")}},
		{command.Usage, "no number of that name", []string{"film", "functional", "--change", "sinus-band.shortning=0:3", "-o", filepath.Join(dir, "x.gif")}},
		{command.BadCase, "did you mean", []string{"film", "functional", "--change", "annulus.septal_latteral_mm=30:31", "-o", filepath.Join(dir, "x.gif")}},
		{command.Usage, "0 to 40", []string{"film", "functional", "--change", "sinus-band.shortening_mm=0:900", "-o", filepath.Join(dir, "x.gif")}},
		{command.Usage, "2 to 96", []string{"film", "functional", "--frames", "5000", "-o", filepath.Join(dir, "x.gif")}},
		{command.Usage, ".pdf", []string{"handout", "functional", "-o", filepath.Join(dir, "x.png")}},
		{command.BadCase, "no colon", []string{"compare", "functional", "--plan", "edge-clip"}},
		{command.BadCase, "beyond the end", []string{"compare", "functional", "--plan", "far: sinus-band,distal_mm=149"}},
		{command.Usage, "at most 3", []string{"compare", "functional", "--plan", "a:", "--plan", "b:", "--plan", "c:", "--plan", "d:"}},
	} {
		code, out, errs := run(c.args...)
		if code != c.code || !strings.Contains(errs, c.says) || out != "" {
			t.Errorf("%v: exit %d, %q, want %d and %q", c.args, code, errs, c.code, c.says)
		}
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}
