package program_test

import (
	"fmt"
	"image"
	"math/rand/v2"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/theme"
)

// lessonPages shows the list and every page of one lesson.
func lessonPages(t *testing.T, p *program.Program, look func(name string)) {
	t.Helper()
	look("list")
	do(t, p, "lesson/open/sinus-route", "")
	look("question")
	answer(t, p)
	compute(t, p)
	for page := 1; page < 6; page++ {
		look(fmt.Sprint("page ", page))
		if page < 5 {
			do(t, p, "lesson/next", "")
		}
	}
	answer(t, p)
	compute(t, p)
	look("answer")
	do(t, p, "lesson/finish", "")
}

// WCAG 2.2, 1.4.3 and, for the projector's colours, 1.4.6: as TestEveryTextStandsOutFromWhatIsBehindIt, on the lessons.
func TestLessonTextsStandOut(t *testing.T) {
	painter := raster.New(1)
	for _, th := range theme.Names() {
		if raceDetector && th != "projector" {
			continue
		}
		p := startLessons(t, nil, nil)
		set(p, th, "en", 1)
		normal, large := 4.5, 3.0
		if th == "projector" {
			normal, large = 7, 4.5
		}
		n := 0
		lessonPages(t, p, func(name string) {
			l := paint(p, 1024, 768)
			behind := image.NewRGBA(image.Rect(0, 0, 1024, 768))
			copy(behind.Pix, painter.Paint(background(l), 1).Pix)
			clips := []draw.Rect{{W: 1024, H: 768}}
			for _, op := range l.Ops {
				switch op.Kind {
				case draw.KindPushClip:
					r, _ := within(clips[len(clips)-1], op.Rect)
					clips = append(clips, r)
				case draw.KindPopClip:
					clips = clips[:len(clips)-1]
				case draw.KindText:
					box, ok := within(textBox(op), clips[len(clips)-1])
					if !ok || box.W < 2 || box.H < 4 {
						continue
					}
					n++
					least := normal
					if op.Size >= 24 || op.Bold && op.Size >= 18.66 {
						least = large
					}
					if r := theme.Contrast(op.Color, mostly(behind, box)); r < least-0.005 {
						t.Errorf("%s, %s: %q has contrast %.2f, want %.1f", th, name, op.Text, r, least)
					}
				}
			}
		})
		if n < 150 {
			t.Errorf("%s: only %d texts looked at", th, n)
		}
	}
}

// Whatever is pressed in whatever order: no panic, no text cut, always something said, and never a reveal before a prediction.
func TestMonkeyInTheLessons(t *testing.T) {
	n := 250
	if raceDetector {
		n = 40
	}
	const seed = 7
	r := rand.New(rand.NewPCG(seed, 1))
	p := startLessons(t, nil, nil)
	p.Desk().U.Record = true
	sizes := [][2]float64{{1024, 768}, {1920, 1080}, {1280, 800}}
	w, h := sizes[0][0], sizes[0][1]
	pages := map[string]bool{}
	for i := range n {
		if p.Inspect().(map[string]any)["scene"] != "lessons" {
			p.Open("", "scene=lessons")
		}
		if r.IntN(15) == 0 {
			s := sizes[r.IntN(len(sizes))]
			w, h = s[0], s[1]
			set(p, []string{"light", "dark", "projector"}[r.IntN(3)], []string{"en", "de", "double"}[r.IntN(3)], []float64{1, 1.5, 2}[r.IntN(3)])
		}
		paint(p, w, h)
		all := p.Controls()
		c := all[r.IntN(len(all))]
		if r.IntN(2) == 0 { // rather on with the lesson
			for _, id := range []string{"lesson/finish", "lesson/next", "lesson/commit"} {
				if k, ok := control(p, id); ok && !k.Disabled {
					c = k
				}
			}
		}
		value := []string{"true", fmt.Sprint(c.Min + (c.Max-c.Min)*r.Float64()), "0"}[r.IntN(3)]
		if len(c.Options) > 0 {
			value = c.Options[r.IntN(len(c.Options))]
		}
		if c.ID != "scene" && c.ID != "scenes" {
			_ = p.Act(c.ID, value) // a refusal is an answer
		}
		p.Tick(0)
		l := paint(p, w, h)
		if len(l.Ops) == 0 || p.Announcement() == "" || p.Description() == "" {
			t.Fatalf("seed %d, step %d, after %s: nothing is shown or said", seed, i, c.ID)
		}
		name := fmt.Sprintf("seed %d, step %d, after %s", seed, i, c.ID)
		checkTexts(t, name, p.Desk().U.Cells, w, h)
		checkTargets(t, name, p.Desk().U.Controls, p.Desk().U.Scale)
		if _, revealed := control(p, "lesson/verdict"); revealed {
			if _, asks := control(p, "lesson/choice"); asks {
				t.Fatalf("%s: the answer stands beside the question", name)
			}
		}
		pages[p.Description()] = true
		if t.Failed() {
			return
		}
	}
	if len(pages) < 8 && !raceDetector {
		t.Errorf("only %d pages were met", len(pages))
	}
}
