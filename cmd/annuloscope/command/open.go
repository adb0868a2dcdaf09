package command

import (
	"errors"
	"fmt"

	"annuloscope/assets"
	"annuloscope/scenes"
	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/present/program"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

type openCmd struct {
	engineFlag
	Case   string   `arg:"" optional:"" help:"A built-in case, or a file: a case, a shared state, a saved link or a running order; the functional leak when left out."`
	Window bool     `help:"Demand the window: exit with code 5 where there is no display."`
	Words  bool     `help:"Do the main job in words and open no window."`
	Fresh  bool     `help:"Do not take up the state kept from last time; it stays beside the new one as state-before.json."`
	Lesson []string `help:"Add a lesson file to the list of lessons; may be given several times." placeholder:"FILE" sep:"none"`
}

func (c *openCmd) Run(s *Streams) error {
	if c.Words {
		return c.inWords(s)
	}
	p, err := c.program(s)
	if err != nil {
		return err
	}
	err = scenes.Run(p, scenes.Options{Title: "Annuloscope: educational only"})
	if failed := p.Close(); failed != nil {
		fmt.Fprintf(s.Err, "annuloscope: the last changes are not kept: %v\n", failed)
	}
	if !errors.Is(err, scenes.ErrNoDisplay) {
		return err
	}
	if c.Window {
		return &exit{NoDisplay, err}
	}
	fmt.Fprintf(s.Err, "annuloscope: %v; here is the main job in words\n", err)
	return c.inWords(s)
}

// program starts the screens on the case, or on the state kept from last time when no case is named.
func (c *openCmd) program(s *Streams) (*program.Program, error) {
	shared, name := sharedFile(c.Case), c.Case
	if shared != nil {
		name = ""
	}
	cases, err := openCases(name)
	if err != nil {
		return nil, err
	}
	config := program.Config{Runner: runner(), Sweeper: sweeper, Beside: beside, Cohort: manyPatients(), Cases: cases, Document: shared}
	if config.Lessons, err = Lessons(c.Lesson...); err != nil {
		return nil, err
	}
	config.Progress, config.Gone = lessonProgress(s.Err)
	if keeper := newKeeper(s.Err); keeper != nil {
		config.Keeper = keeper
		if c.Case == "" && !c.Fresh {
			config.Document, config.Damaged = keeper.kept()
		}
	}
	p := program.New(config)
	if c.Engine != "" { // left out, it is as it was left or shared
		p.Desk().V.Engine = string(c.Engine)
	}
	return p, nil
}

// openCases returns the built-in cases, the named one first.
func openCases(name string) ([]casefile.Case, error) {
	if name == "" {
		name = assets.Demonstration
	}
	first, err := Load(name)
	if err != nil {
		return nil, err
	}
	cases := []casefile.Case{first}
	all, err := program.ReadCases(assets.CaseNames(), func(n string) ([]byte, error) { return assets.Cases.ReadFile("cases/" + n + ".yaml") })
	for _, c := range all {
		if c.Name != name {
			cases = append(cases, c)
		}
	}
	return cases, err
}

// inWords does the main job without a display: the patient untreated, with the sinus band and with the edge clip.
func (c *openCmd) inWords(s *Streams) error {
	name := c.Case
	if data := sharedFile(name); data != nil {
		return sharedInWords(s, data, c.engineFlag)
	}
	if name == "" {
		name = assets.Demonstration
	}
	base, err := Load(name)
	if err != nil {
		return err
	}
	solver := valve.NewSolver()
	for i, kind := range []repair.Kind{repair.SinusBand, repair.EdgeClip} {
		cs := base.Clone()
		cs.Repairs = []repair.Step{repair.Must(kind)}
		r, err := solver.Solve(cs, c.options(valve.Options{Circulation: true}))
		if err != nil {
			return err
		}
		c.warn(s, &r)
		spec, _ := repair.Find(kind)
		if i == 0 {
			fmt.Fprintf(s.Out, "%s. %s\n", base.Title, base.Note)
		}
		fmt.Fprintf(s.Out, "\n== %s ==\n%s\n", spec.Title, spec.Meaning)
		sentence, err := placed(base, kind)
		if err != nil {
			return err
		}
		fmt.Fprintf(s.Out, "%s\n\n", sentence)
		if err := plain.Report(s.Out, &r); err != nil {
			return err
		}
	}
	fmt.Fprintln(s.Out, "\nThe pictures: `annuloscope serve` shows the same program as a page; `annuloscope figure functional -o valve.png` draws without a display.")
	return nil
}
