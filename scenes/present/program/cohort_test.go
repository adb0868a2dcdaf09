package program_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/sim/cohort"
)

// fill goes on until the cohort has n patients.
func fill(t testing.TB, p *program.Program, n int) {
	t.Helper()
	for i := 0; i < 40*n; i++ {
		p.Tick(float64(i))
		if p.Cohort().Patients() >= n {
			return
		}
	}
	t.Fatalf("only %d patients of %d", p.Cohort().Patients(), n)
}

// cohort opens the scene with n patients.
func toCohort(t testing.TB, p *program.Program, n int) {
	t.Helper()
	paint(p, 1280, 800)
	if err := p.Act("scene", p.Desk().W().T("scene.cohort")); err != nil {
		t.Fatal(err)
	}
	fill(t, p, n)
}

// some is n patients where pictures are wanted, else few.
func some(n int) int {
	if os.Getenv("PICTURES") == "" {
		return 5
	}
	return n
}

func TestCohortPictures(t *testing.T) {
	band := func(p *program.Program) { turn(t, p, "repair/sinus-band/shortening_mm", 20) }
	shoot(t, map[string]bool{"cohort-1024": true}, []shot{
		{"cohort-1024", 1024, 768, func(p *program.Program) { band(p); toCohort(t, p, some(30)) }},
		{"cohort-1280", 1280, 800, func(p *program.Program) {
			band(p)
			toCohort(t, p, 50)
			paint(p, 1280, 800)
			_ = p.Act("cohort/next", "")
			_ = p.Act("cohort/x/low", "4")
		}},
		{"cohort-1920", 1920, 1080, func(p *program.Program) {
			band(p)
			toCohort(t, p, 50)
			paint(p, 1920, 1080)
			_ = p.Act("cohort/y", p.Desk().W().T("cohort.m.narrowing"))
			_ = p.Act("cohort/x", p.Desk().W().T("cohort.m.crossing"))
			_ = p.Act("cohort/group", p.Desk().W().T("cohort.group.functional"))
			for i := range 4 {
				p.Tick(float64(i))
			}
			fill(t, p, 50)
		}},
		{"cohort-dark-german", 1280, 800, func(p *program.Program) { set(p, "dark", "de", 1); toCohort(t, p, 40) }},
		{"cohort-200", 1024, 768, func(p *program.Program) { toCohort(t, p, 30); set(p, "light", "en", 2) }},
		{"cohort-200-double", 1024, 768, func(p *program.Program) { toCohort(t, p, 30); set(p, "projector", "double", 2) }},
		{"cohort-double", 1024, 768, func(p *program.Program) { toCohort(t, p, 30); set(p, "light", "double", 1) }},
		{"cohort-200-1920", 1920, 1080, func(p *program.Program) { toCohort(t, p, 50); set(p, "light", "de", 2) }},
		{"cohort-empty", 1024, 768, func(p *program.Program) {
			paint(p, 1280, 800)
			_ = p.Act("scene", p.Desk().W().T("scene.cohort"))
		}},
	})
}

// A patient of the scene is that of the command line: same seed, same numbers.
func TestCohortIsThatOfTheCommandLine(t *testing.T) {
	p := start(t, "functional")
	turn(t, p, "repair/sinus-band/shortening_mm", 20)
	toCohort(t, p, 3)
	w := cohort.NewWorker(cohort.Plan{Seed: 1, Mix: cohort.EqualMix(), Repairs: p.Desk().S.Case.Repairs})
	for i, m := range p.Cohort().Members()[:3] {
		want, err := w.Member(i)
		if err != nil || !slices.Equal(m.Row(), want.Row()) {
			t.Errorf("patient %d: %v\n%v\n%v", i, err, m.Row(), want.Row())
		}
	}
	turn(t, p, "repair/sinus-band/shortening_mm", 10)
	settle(p)
	p.Tick(1e4)
	for i := range 4 {
		p.Tick(1e4 + float64(i))
	}
	if n := p.Cohort().Patients(); n > 2 {
		t.Errorf("%d patients are kept after the repair has changed", n)
	}
}

// A mark is picked by mouse and by keys, and its patient opens in the first scene.
func TestCohortPickAndOpen(t *testing.T) {
	p := start(t, "functional")
	turn(t, p, "repair/sinus-band/shortening_mm", 20)
	toCohort(t, p, 7)
	paint(p, 1280, 800)
	chart, ok := p.Desk().U.Find("cohort/scatter")
	if !ok {
		t.Fatal("no chart")
	}
	v, hit := p.Cohort(), -1
	for i := range v.Members() {
		if x, y, ok := v.Place(i); ok {
			pointer(p, input.Move, chart.Rect.X+x, chart.Rect.Y+y)
			pointer(p, input.Press, chart.Rect.X+x, chart.Rect.Y+y)
			pointer(p, input.Release, chart.Rect.X+x, chart.Rect.Y+y)
			if hit = i; v.Picked() != i {
				t.Errorf("pressed the mark of patient %d, picked %d", i, v.Picked())
			}
		}
	}
	if hit < 0 {
		t.Fatal("no marks")
	}
	paint(p, 1280, 800)
	p.Desk().U.SetFocus("cohort/scatter")
	key(p, input.Home, 0)
	first := v.Picked()
	key(p, input.Right, 0)
	second := v.Picked()
	key(p, input.Left, 0)
	elevation := func(i int) float64 { return v.Members()[i].Case.Patient.Sinus.ElevationMM.Middle }
	if first == second || v.Picked() != first || elevation(second) < elevation(first) {
		t.Errorf("Home, right, left: %d, %d, %d", first, second, v.Picked())
	}
	want := v.Members()[first]
	paint(p, 1280, 800)
	p.Desk().U.SetFocus("cohort/open")
	key(p, input.Enter, 0)
	settle(p)
	s := p.Desk().S
	if p.Document().Scene != "valve" || s.Case.Name != want.Case.Name || !strings.Contains(s.Case.Title, "Virtual patient") {
		t.Fatalf("scene %s, case %s, %q", p.Document().Scene, s.Case.Name, s.Case.Title)
	}
	if a, b := s.Report.After.Annulus.SeptalLateralMM, want.After.Annulus.SeptalLateralMM; math.Abs(a-b) > 0.05 {
		t.Errorf("the opened patient has %g mm, its mark %g", a, b)
	}
	if !s.Undo() || s.Case.Name != "functional" {
		t.Error("opening a patient cannot be undone")
	}
}

// A range keeps those within it, in both histograms and in the numbers; another axis opens it again.
func TestCohortRanges(t *testing.T) {
	p := start(t, "functional")
	toCohort(t, p, 8)
	paint(p, 1280, 800)
	if err := p.Act("cohort/x/low", "6"); err != nil {
		t.Fatal(err)
	}
	paint(p, 1280, 800)
	want := 0
	for _, m := range p.Cohort().Members() {
		if m.Failure == "" && m.Case.Patient.Sinus.ElevationMM.Middle >= 6 {
			want++
		}
	}
	n := len(p.Cohort().Members())
	if text := p.Description(); want == n || !strings.Contains(text, fmt.Sprintf("%d of %d patients", want, n)) {
		t.Errorf("%d of %d lie above 6 mm; it says %q", want, n, text)
	}
	if err := p.Act("cohort/y", "Mean gradient after"); err != nil {
		t.Fatal(err)
	}
	paint(p, 1280, 800)
	if text := p.Description(); strings.Contains(text, "Within") || !strings.Contains(text, "Mean gradient after (mmHg)") {
		t.Errorf("after another axis: %q", text)
	}
}
