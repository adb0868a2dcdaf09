package program_test

import (
	"fmt"
	"strings"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/repair"
)

// compare goes to the comparison, adds the built-in plans and lets them be solved.
func compare(t testing.TB, p *program.Program, show string) {
	goTo(t, p, "compare")
	paint(p, 1280, 800)
	if show != "" {
		if err := p.Act("compare/suggest", ""); err != nil {
			t.Fatal(err)
		}
	}
	for range 12 {
		p.Tick(0)
	}
	paint(p, 1280, 800)
	if show != "" {
		if err := p.Act("compare/show", show); err != nil {
			t.Fatal(err)
		}
	}
}

// goTo changes the scene by its name.
func goTo(t testing.TB, p *program.Program, scene string) {
	t.Helper()
	for i, n := range p.Scenes() {
		if n == scene {
			paint(p, 1280, 800)
			if err := p.Act("scene", p.Desk().W().T("scene."+n)); err != nil {
				t.Fatal(i, err)
			}
			return
		}
	}
	t.Fatalf("no scene %q", scene)
}

func TestComparePictures(t *testing.T) {
	shoot(t, map[string]bool{"compare-1024": true}, []shot{
		{"compare-1024", 1024, 768, func(p *program.Program) { compare(t, p, "0") }},
		{"compare-empty-1024", 1024, 768, func(p *program.Program) { compare(t, p, "") }},
		{"compare-empty-1920", 1920, 1080, func(p *program.Program) { compare(t, p, "") }},
		{"compare-1920", 1920, 1080, func(p *program.Program) { compare(t, p, "0") }},
		{"compare-contact-1920", 1920, 1080, func(p *program.Program) { compare(t, p, "1") }},
		{"compare-change-1920", 1920, 1080, func(p *program.Program) { compare(t, p, "3") }},
		{"compare-gap-1024", 1024, 768, func(p *program.Program) { compare(t, p, "4") }},
		{"compare-open-1280", 1280, 800, func(p *program.Program) { compare(t, p, "0"); p.Desk().Hold("diastole") }},
		{"compare-dark-german", 1280, 800, func(p *program.Program) { set(p, "dark", "de", 1); compare(t, p, "3") }},
		{"compare-double-1024", 1024, 768, func(p *program.Program) { set(p, "projector", "double", 1); compare(t, p, "2") }},
		{"compare-200-1024", 1024, 768, func(p *program.Program) { compare(t, p, "3"); set(p, "projector", "en", 2) }},
		{"compare-200-1920", 1920, 1080, func(p *program.Program) { compare(t, p, "0"); set(p, "light", "de", 2) }},
	})
}

// A person plans with the keyboard alone: set the valve, add it, rename, change it in the valve scene, put it back, take
// it away.
func TestPlansAreMadeChangedAndTakenAway(t *testing.T) {
	p := start(t, "functional")
	turn(t, p, "repair/sinus-band/shortening_mm", 12)
	settle(p)
	goTo(t, p, "compare")
	for range 6 {
		p.Tick(0)
	}
	paint(p, 1280, 800)
	focus(t, p, "compare/add")
	key(p, input.Enter, 0)
	for range 6 {
		p.Tick(0)
	}
	paint(p, 1280, 800)
	focus(t, p, "compare/name/0")
	key(p, input.Enter, 0)
	for range len("Plan A") {
		key(p, input.Backspace, 0)
	}
	for _, r := range "Mild: 12" {
		p.Handle(input.Event{Kind: input.Text, Rune: r})
	}
	key(p, input.Enter, 0)
	plans := func() []study.Plan { return p.Desk().S.Plans() }
	if len(plans()) != 1 || plans()[0].Name != "Mild: 12" || plans()[0].Repairs[0].Value("shortening_mm") != 12 {
		t.Fatalf("%v", plans())
	}
	p.Tick(0)
	if text := p.Announcement(); !strings.Contains(text, "With Mild: 12: the leak fell") {
		t.Errorf("the sentence does not know the plan: %q", text)
	}
	// Changed in the valve scene and put back.
	turn(t, p, "repair/sinus-band/shortening_mm", 0)
	paint(p, 1280, 800)
	if err := p.Act("compare/edit/0", ""); err != nil {
		t.Fatal(err)
	}
	if k, _ := p.Desk().S.Knob("repair/sinus-band/shortening_mm"); k.Value != 12 {
		t.Errorf("the valve has %v mm after Edit", k.Value)
	}
	paint(p, 1280, 800)
	if _, ok := p.Desk().U.Find("station"); !ok {
		t.Error("Edit does not lead to the valve scene")
	}
	turn(t, p, "repair/sinus-band/shortening_mm", 25)
	settle(p)
	goTo(t, p, "compare")
	paint(p, 1280, 800)
	if err := p.Act("compare/update/0", ""); err != nil {
		t.Fatal(err)
	}
	if plans()[0].Repairs[0].Value("shortening_mm") != 25 || plans()[0].Name != "Mild: 12" {
		t.Errorf("after Replace %v", plans())
	}
	// The document carries it; a fourth plan is refused in words.
	data := p.Document().Encode()
	q := start(t, "normal")
	q.Load(data)
	if got := q.Desk().S.Plans(); len(got) != 1 || got[0].String() != plans()[0].String() {
		t.Errorf("from the document: %v", got)
	}
	for range 3 {
		_ = p.Desk().S.AddPlan(study.Plan{Name: "more"})
	}
	if len(plans()) != study.MostPlans {
		t.Errorf("%d plans", len(plans()))
	}
	for range 12 {
		p.Tick(0)
	}
	paint(p, 1920, 1080)
	if _, ok := p.Desk().U.Find("compare/add"); ok {
		t.Error("a full comparison still offers to add")
	}
	if err := p.Act("compare/remove/0", ""); err != nil || len(plans()) != 2 {
		t.Errorf("after Remove: %v, %d plans", err, len(plans()))
	}
}

// The comparison is laid out without cut or overlapping texts at every size, scale and language, with one to three plans
// and with every map; so is the sheet that saves figures, for every format.
func TestCompareAndExportLayout(t *testing.T) {
	p := start(t, "functional")
	d := p.Desk()
	d.U.Record = true
	compare(t, p, "0")
	for _, size := range [][2]float64{{1024, 768}, {1920, 1080}} {
		for _, scale := range []float64{1, 1.5, 2} {
			for _, lang := range []string{"en", "de", "double"} {
				set(p, "light", lang, scale)
				at := fmt.Sprintf("%gx%g at %g in %s", size[0], size[1], scale, lang)
				look := func(what string) {
					t.Helper()
					paint(p, size[0], size[1])
					checkTexts(t, what+" "+at, d.U.Cells, size[0], size[1])
					checkTargets(t, what+" "+at, d.U.Controls, d.U.Scale)
				}
				for _, show := range []string{"0", "2", "3"} {
					if act(p, "compare/show", show, size) {
						look("compare, showing " + show)
					}
				}
				key(p, "E", 0)
				for format := range 5 {
					if act(p, "export/format", fmt.Sprint(format), size) {
						look(fmt.Sprintf("export, format %d", format))
					}
				}
				key(p, input.Escape, 0)
			}
		}
	}
	set(p, "light", "en", 1)
	for n := 2; n >= 0; n-- {
		d.S.RemovePlan(0)
		for range 4 {
			p.Tick(0)
		}
		paint(p, 1024, 768)
		checkTexts(t, fmt.Sprintf("%d plans", n), d.U.Cells, 1024, 768)
	}
}

// All pictures turn together, and they share the scale of the untreated valve.
func TestComparedPicturesShareTheCamera(t *testing.T) {
	p := start(t, "functional")
	compare(t, p, "0")
	l := paint(p, 1920, 1080)
	cameras := func(l *draw.List) (out []draw.Camera) {
		for i := range l.Ops {
			if l.Ops[i].Kind == draw.KindScene {
				out = append(out, l.Ops[i].Camera)
			}
		}
		return out
	}
	before := cameras(l)
	c, ok := p.Desk().U.Find("picture/2")
	if !ok {
		t.Fatal("the third plan has no picture to turn")
	}
	x, y := c.Rect.X+c.Rect.W/2, c.Rect.Y+c.Rect.H/2
	p.Handle(input.Event{Kind: input.Press, X: x, Y: y})
	p.Handle(input.Event{Kind: input.Move, X: x + 30, Y: y - 40})
	p.Handle(input.Event{Kind: input.Release, X: x + 30, Y: y - 40})
	after := cameras(paint(p, 1920, 1080))
	if len(before) != 4 || len(after) != 4 {
		t.Fatalf("%d and %d pictures", len(before), len(after))
	}
	for i := range after {
		if after[i] != after[0] || after[i] == before[i] {
			t.Errorf("picture %d: camera %+v, the first %+v, before %+v", i, after[i], after[0], before[i])
		}
	}
}

// A plan that does not fit the patient says why in its column, in the language in use; the others stay.
func TestAPlanThatDoesNotFitSaysWhy(t *testing.T) {
	p := start(t, "functional")
	set(p, "light", "de", 1)
	step := repair.Must(repair.SinusBand).With("distal_mm", 149)
	for _, plan := range []study.Plan{{Name: "weit", Repairs: []repair.Step{step}}, {Name: "Clip", Repairs: []repair.Step{repair.Must(repair.EdgeClip)}}} {
		if err := p.Desk().S.AddPlan(plan); err != nil {
			t.Fatal(err)
		}
	}
	p.Desk().U.Record = true
	goTo(t, p, "compare")
	for range 8 {
		p.Tick(0)
	}
	paint(p, 1920, 1080)
	seen := ""
	for _, c := range p.Desk().U.Cells {
		seen += c.Text + " "
	}
	if !strings.Contains(seen, "jenseits des Endes der Vene") || !strings.Contains(p.Announcement(), "Mit Clip: ") {
		t.Errorf("%q, and on screen: %s", p.Announcement(), seen)
	}
}
