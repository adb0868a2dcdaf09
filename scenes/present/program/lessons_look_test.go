package program_test

import (
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
)

// turnTo goes to a page of a lesson; later pages have the first choice committed.
func turnTo(t testing.TB, p *program.Program, name string, page int) {
	t.Helper()
	do(t, p, "lesson/open/"+name, "")
	commit := func() {
		if c, ok := control(p, "lesson/choice"); ok {
			do(t, p, "lesson/choice", c.Options[0])
		} else if c, ok := control(p, "lesson/number"); ok {
			do(t, p, "lesson/number", fmt.Sprint(c.Max-c.Step))
		}
		do(t, p, "lesson/commit", "")
		compute(t, p)
	}
	for i := range page {
		if i == 0 {
			commit()
		} else if i == 6-1 {
			commit()
		} else {
			do(t, p, "lesson/next", "")
		}
	}
}

func TestNoTextOfALessonIsCutOrOverlaps(t *testing.T) {
	p := startLessons(t, nil, nil)
	p.Desk().U.Record = true
	names := []string{"commissural-view", "distance-elevation"}
	if raceDetector {
		names = names[:1]
	}
	for _, size := range [][2]float64{{1024, 768}, {1920, 1080}} {
		for _, scale := range []float64{1, 2} {
			for _, lang := range []string{"en", "de", "double"} {
				if raceDetector && (scale == 1) != (lang == "double") {
					continue
				}
				set(p, "light", lang, scale)
				check := func(what string) {
					paint(p, size[0], size[1])
					name := fmt.Sprintf("%s %gx%g at %g in %s", what, size[0], size[1], scale, lang)
					checkTexts(t, name, p.Desk().U.Cells, size[0], size[1])
					checkTargets(t, name, p.Desk().U.Controls, scale)
				}
				check("list")
				for _, n := range names {
					do(t, p, "lesson/open/"+n, "")
					check(n + " asked")
					answer(t, p)
					compute(t, p)
					for page := 1; page < 6; page++ {
						check(fmt.Sprint(n, " page ", page))
						if page < 5 {
							do(t, p, "lesson/next", "")
						}
					}
					answer(t, p)
					compute(t, p)
					check(n + " answered")
					do(t, p, "lesson/finish", "")
				}
			}
		}
	}
}

func answer(t *testing.T, p *program.Program) {
	t.Helper()
	if c, ok := control(p, "lesson/choice"); ok {
		do(t, p, "lesson/choice", c.Options[0])
	} else {
		c, _ := control(p, "lesson/number")
		do(t, p, "lesson/number", fmt.Sprint(c.Max-c.Step))
	}
	do(t, p, "lesson/commit", "")
}

// TestLessonPictures writes the lessons' pages into the folder named by PICTURES, to be looked at.
func TestLessonPictures(t *testing.T) {
	dir := os.Getenv("PICTURES")
	all := dir != ""
	if !all {
		dir = t.TempDir()
	}
	shots := []struct {
		name, lesson, theme, lang string
		page                      int
		w, h, scale               float64
	}{
		{"lesson-list", "", "light", "en", 0, 1024, 768, 1}, {"lesson-list-1920", "", "dark", "de", 0, 1920, 1080, 1}, {"lesson-list-200", "", "light", "double", 0, 1024, 768, 2},
		{"lesson-ask", "sinus-route", "light", "en", 0, 1024, 768, 1}, {"lesson-reveal", "sinus-route", "light", "en", 1, 1024, 768, 1},
		{"lesson-reveal-1920", "sinus-route", "light", "de", 1, 1920, 1080, 1}, {"lesson-reveal-200", "sinus-route", "projector", "de", 1, 1024, 768, 2},
		{"lesson-reveal-double", "distance-elevation", "light", "double", 1, 1920, 1080, 1}, {"lesson-four-plans", "distance-elevation", "light", "en", 1, 1280, 800, 1},
		{"lesson-orifices", "two-orifices", "dark", "en", 1, 1280, 800, 1}, {"lesson-flail", "two-leaks", "light", "en", 1, 1280, 800, 1},
		{"lesson-why", "artery", "light", "de", 2, 1024, 768, 1}, {"lesson-evidence", "sinus-route", "light", "en", 3, 1024, 768, 1},
		{"lesson-evidence-200", "sinus-route", "light", "double", 3, 1024, 768, 2}, {"lesson-explore", "sinus-route", "light", "en", 4, 1024, 768, 1},
		{"lesson-transfer", "commissural-view", "light", "en", 5, 1024, 768, 1}, {"lesson-answer", "clips-and-stenosis", "light", "de", 6, 1280, 800, 1},
	}
	painter := raster.New(1)
	painter.Quality = raster.Still
	for _, s := range shots {
		if !all && s.name != "lesson-reveal" {
			continue
		}
		if only := os.Getenv("ONLY"); only != "" {
			if ok, _ := filepath.Match(only, s.name); !ok {
				continue
			}
		}
		p := startLessons(t, nil, nil)
		set(p, s.theme, s.lang, s.scale)
		paint(p, s.w, s.h)
		if s.lesson != "" {
			turnTo(t, p, s.lesson, s.page)
		}
		img := painter.Paint(paint(p, s.w, s.h), 1)
		checkPicture(t, s.name, p, img)
		f, err := os.Create(filepath.Join(dir, s.name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
}
