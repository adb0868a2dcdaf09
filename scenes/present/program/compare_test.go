package program_test

import (
	"testing"

	"annuloscope/scenes/present/program"
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
