package program_test

import (
	"strings"
	"testing"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
)

func step(t *testing.T, p *program.Program) string {
	t.Helper()
	settle(p)
	paint(p, 1024, 768)
	return p.Description()
}

// A whole lecture with the keys of a clicker: each step hides its number until the next key.
func TestLectureByClicker(t *testing.T) {
	p := start(t, "functional")
	p.Open("", "scene=lectern")
	paint(p, 1024, 768)
	if err := p.Act("lectern/demo", ""); err != nil {
		t.Fatal(err)
	}
	paint(p, 1024, 768)
	if err := p.Act("lectern/start", ""); err != nil {
		t.Fatal(err)
	}
	if p.Desk().P.Theme != "projector" {
		t.Error("not in the projector's colours")
	}
	for i, k := range []input.Key{input.PageDown, input.Right, input.Down, input.Space, input.PageDown, input.PageDown} {
		hidden := step(t, p)
		r := p.Desk().S.Report
		q := p.Lectern().Order().Steps[i].Number
		c, ok := p.Desk().U.Find("quantity/" + q)
		if !ok || strings.ContainsAny(c.Text, "0123456789") || strings.Contains(hidden, "cm²") || strings.Contains(p.Announcement(), "cm²") {
			t.Errorf("step %d shows its number before the key: %q, %q", i+1, c.Text, hidden)
		}
		key(p, k, 0)
		shown := step(t, p)
		if p.Announcement() != shown {
			t.Errorf("step %d is announced as %q", i+1, p.Announcement())
		}
		c, _ = p.Desk().U.Find("quantity/" + q)
		if i == 1 && !strings.Contains(c.Text, p.Desk().W().With(r.After.Annulus.SeptalLateralMM, 1, "mm")) || !strings.ContainsAny(c.Text, "0123456789") || len(shown) <= len(hidden) {
			t.Errorf("step %d, shown: %q, %q", i+1, c.Text, shown)
		}
		note := ""
		for _, c := range p.Controls() {
			if c.ID == "lectern/notes" {
				note = c.Text
			}
		}
		if want := p.Lectern().Order().Steps[i].Note; !strings.Contains(note, want) || strings.Contains(shown, want) {
			t.Errorf("step %d: note %q; audience %q", i+1, note, shown)
		}
		key(p, k, 0)
	}
	if !strings.Contains(p.Desk().Message, "last") {
		t.Errorf("after the last step: %q", p.Desk().Message)
	}
	key(p, "B", 0)
	step(t, p)
	if n := len(p.Desk().U.Controls); n != 1 || p.Desk().U.Controls[0].ID != "lectern/blank" {
		t.Errorf("%d controls on the blank screen", n)
	}
	key(p, input.PageDown, 0) // a clicker brings the picture back and does not go on
	key(p, input.PageUp, 0)
	if d := step(t, p); !strings.Contains(d, "5 of 6") {
		t.Errorf("back: %q", d)
	}
	key(p, input.Escape, 0)
	step(t, p)
	if p.Lectern().Presenting() || p.Desk().P.Theme != "light" {
		t.Error("Escape does not end it")
	}
}

// Build a running order by keyboard and by the page's HTML side, save it, open it again.
func TestPrepareALecture(t *testing.T) {
	p := start(t, "functional")
	act := func(id, value string) {
		t.Helper()
		settle(p)
		paint(p, 1024, 768)
		if err := p.Act(id, value); err != nil {
			t.Fatal(err)
		}
		paint(p, 1024, 768)
	}
	turn(t, p, shortening, 12)
	p.Open("", "scene=lectern")
	act("lectern/add", "")
	act("lectern/text/ask", "How narrow?")
	turn(t, p, shortening, 24)
	act("lectern/add", "")
	act("lectern/number", "1")
	act("lectern/earlier", "")
	o := p.Lectern().Order()
	if len(o.Steps) != 2 || o.Steps[0].State.Open.Repairs[0].Value("shortening_mm") != 24 || o.Steps[0].Number != "annulus.septal_lateral_mm" || o.Steps[1].Ask != "How narrow?" {
		t.Fatalf("%+v", o)
	}
	// The title by keyboard alone.
	focus(t, p, "lectern/text/title")
	key(p, input.Enter, 0)
	for _, r := range "!" {
		p.Handle(input.Event{Kind: input.Text, Rune: r})
	}
	key(p, input.Enter, 0)
	if got := p.Lectern().Order().Steps[0].Title; !strings.HasSuffix(got, "!") || len(got) < 10 {
		t.Errorf("title %q", got)
	}
	act("lectern/save", "")
	var saved present.Wish
	for _, w := range p.Wishes() {
		if w.Kind == present.SaveFile {
			saved = w
		}
	}
	act("lectern/sheet", "")
	for _, w := range p.Wishes() {
		if text := string(w.Data); !strings.Contains(text, "How narrow?") || !strings.Contains(text, "Educational only") || !strings.Contains(text, "mm") {
			t.Errorf("the sheet:\n%s", text)
		}
	}
	q := start(t, "normal")
	q.Handle(input.Event{Kind: input.Drop, Name: saved.Name, Data: saved.Data})
	paint(q, 1024, 768)
	if got := q.Lectern().Order(); len(got.Steps) != 2 || got.Steps[1].Ask != "How narrow?" || q.Inspect().(map[string]any)["scene"] != "lectern" {
		t.Errorf("opened: %+v", got)
	}
	act("lectern/remove", "")
	act("lectern/remove", "")
	if n := len(p.Lectern().Order().Steps); n != 0 {
		t.Errorf("%d steps after removing both", n)
	}
}

type keptState struct{ data []byte }

func (k *keptState) Keep(data []byte) error { k.data = data; return nil }

// The running order is there again after the program was closed, and is not in a shared link.
func TestRunningOrderIsKept(t *testing.T) {
	k := &keptState{}
	p := program.New(program.Config{Runner: study.NewSync(remembered{}), Cases: cases(t), Keeper: k})
	settle(p)
	p.Open("", "scene=lectern")
	paint(p, 1024, 768)
	if err := p.Act("lectern/demo", ""); err != nil {
		t.Fatal(err)
	}
	if err := p.Close(); err != nil {
		t.Fatal(err)
	}
	q := program.New(program.Config{Runner: study.NewSync(remembered{}), Cases: cases(t), Document: k.data})
	if a, b := p.Lectern().Order(), q.Lectern().Order(); len(b.Steps) != 6 || string(a.Encode()) != string(b.Encode()) {
		t.Errorf("%d steps are back", len(b.Steps))
	}
	if strings.Contains(string(p.Document().Encode()), "demonstration") || len(p.Link()) > 2000 {
		t.Error("the order is in what is shared")
	}
}
