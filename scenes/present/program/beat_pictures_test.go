package program_test

import (
	"testing"

	"annuloscope/scenes/present/program"
)

// TestBeatPictures paints the scene of the beat: every tab, at small and large sizes, in German and the double language.
func TestBeatPictures(t *testing.T) {
	beat := func(p *program.Program, tab, theme, lang string, scale float64) {
		set(p, theme, lang, scale)
		turn(t, p, "repair/edge-clip/position", 0)
		settle(p)
		key(p, "3", 0)
		paint(p, 1024, 768)
		if tab != "" {
			if err := p.Act("beat/tab", tab); err != nil {
				t.Fatal(err)
			}
		}
	}
	shots := []shot{}
	for i, name := range []string{"waves", "loop", "laboratory", "grades", "heart"} {
		tab := string(rune('0' + i))
		shots = append(shots, shot{"beatscene-" + name + "-1024", 1024, 768, func(p *program.Program) { beat(p, tab, "light", "en", 1) }},
			shot{"beatscene-" + name + "-1920-de", 1920, 1080, func(p *program.Program) { beat(p, tab, "dark", "de", 1) }},
			shot{"beatscene-" + name + "-1024-double", 1024, 768, func(p *program.Program) { beat(p, tab, "projector", "double", 1) }},
			shot{"beatscene-" + name + "-1920-200", 1920, 1080, func(p *program.Program) { beat(p, tab, "light", "en", 2) }},
		)
	}
	shots = append(shots, shot{"beatscene-leak-laboratory", 1280, 800, func(p *program.Program) {
		key(p, "3", 0)
		paint(p, 1280, 800)
		if err := p.Act("beat/tab", "2"); err != nil {
			t.Fatal(err)
		}
	}}, shot{"beatscene-leak-scrub", 1280, 800, func(p *program.Program) {
		turn(t, p, "repair/edge-clip/position", 0.3)
		settle(p)
		key(p, "3", 0)
		paint(p, 1280, 800)
		if err := p.Act("phase", "72"); err != nil {
			t.Fatal(err)
		}
	}})
	for i, name := range []string{"move", "waves", "loop", "laboratory", "grades", "heart"} {
		tab := string(rune('0' + i))
		shots = append(shots, shot{"beatscene-narrow-" + name, 1024, 768, func(p *program.Program) { beat(p, tab, "light", "de", 2) }})
	}
	shoot(t, map[string]bool{"beatscene-laboratory-1024": true}, shots)
}
