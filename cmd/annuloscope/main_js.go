package main

import (
	"fmt"
	"os"

	"annuloscope/assets"
	"annuloscope/scenes"
	"annuloscope/scenes/present/lesson"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
)

// The page has the screens alone: its one thread computes between two pictures, and there is no command line.
func main() {
	if err := page(); err != nil {
		fmt.Fprintln(os.Stderr, "annuloscope:", err)
		os.Exit(1)
	}
}

func page() error {
	cases, err := program.ReadCases(assets.CaseNames(), func(n string) ([]byte, error) { return assets.Cases.ReadFile("cases/" + n + ".yaml") })
	if err != nil {
		return err
	}
	first := 0
	for i, c := range cases {
		if c.Name == assets.Demonstration {
			first = i
		}
	}
	cases[0], cases[first] = cases[first], cases[0]
	find := func(name string) (casefile.Case, error) {
		for _, c := range cases {
			if c.Name == name {
				return c, nil
			}
		}
		return casefile.Case{}, fmt.Errorf("no built-in case %q", name)
	}
	lessons, err := lesson.ReadAll(assets.LessonFiles(), func(n string) ([]byte, error) { return assets.Lessons.ReadFile("lessons/" + n) }, find)
	if err != nil {
		return err
	}
	solver := study.NewSolver()
	solver.Coarse = true
	config := program.Config{Runner: study.NewSync(solver), Beside: coarse(study.NewExplained), Sweeper: coarse(study.NewFull),
		Cases: cases, Address: program.PageAddress, Lessons: lessons}
	config.Progress, config.Gone = lessonProgress()
	return scenes.Run(program.New(config), scenes.Options{Title: "Annuloscope: educational only"})
}

// coarse makes runners that settle the leaflets on the mesh that the page has time for.
func coarse(engine func() *study.Full) func() study.Runner {
	return func() study.Runner {
		f := engine()
		f.Coarse = true
		return study.NewSync(f)
	}
}
