package command

import (
	"context"
	"errors"
	"runtime"
	"sync"
	"time"

	"annuloscope/scenes"
	"annuloscope/scenes/pace"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/cohort"
	"annuloscope/sim/valve"
)

// inWindow drives the slider in the window, at one size after the other.
func (c *benchCmd) inWindow() ([]benchRow, error) {
	cases, err := openCases("")
	if err != nil {
		return nil, err
	}
	var rows []benchRow
	over := false
	t := new(pace.Times)
	o := scenes.Options{Title: "Annuloscope: educational only", Width: benchSizes[0][0], Height: benchSizes[0][1], Times: t, Done: func() bool { return over }}
	o.Drive = c.drive()
	o.Drive.Sizes = benchSizes[1:]
	o.Drive.Ended = func(w, h float64, last bool) {
		rows = append(rows, rowOf(int(w), int(h), t.Summary()))
		over = last
	}
	err = scenes.Run(program.New(program.Config{Runner: runner(), Sweeper: sweeper, Beside: beside, Cases: cases}), o)
	if errors.Is(err, scenes.ErrNoDisplay) {
		return nil, &exit{NoDisplay, err}
	}
	if err == nil && o.Drive.Err != nil {
		err = failWith(Failed, "the window: %w", o.Drive.Err)
	}
	for _, r := range rows {
		over = over && r.Settled.Count > 0
	}
	if err == nil && !over {
		err = failWith(Failed, "the window was closed before everything was measured")
	}
	return rows, err
}

// drive is the hand on the slider, in the window as in the page. It chooses the engine under "Leaflets" first.
func (c *benchCmd) drive() *scenes.Drive {
	d := &scenes.Drive{ID: benchSlider, Moves: c.Moves}
	if c.shell() {
		d.Choose = []scenes.Choice{{ID: "engine", Value: "1"}} // the second of the two
	}
	return d
}

// load keeps every processor busy with a cohort of virtual patients until the returned function is called.
func load() (end func()) {
	ctx, stop := context.WithCancel(context.Background())
	var all sync.WaitGroup
	for i := range runtime.NumCPU() {
		all.Go(func() {
			w := cohort.NewWorker(cohort.Plan{Seed: uint64(i) + 1, Mix: cohort.EqualMix()})
			for n := 0; ctx.Err() == nil; n++ {
				if _, err := w.Member(n); err != nil {
					return
				}
			}
		})
	}
	return func() { stop(); all.Wait() }
}

// benchAt moves the slider and returns the times to the pictures.
func benchAt(r study.Runner, w, h, moves int, shell bool) (t pace.Times, err error) {
	cases, err := openCases("")
	if err != nil {
		return t, err
	}
	p := program.New(program.Config{Runner: r, Cases: cases})
	patience := benchPatience
	if shell {
		p.Desk().V.Engine = valve.ShellEngine
		p.Desk().Sync()
		patience = shellPatience
	}
	var list draw.List
	for start := time.Now(); p.Pending() && time.Since(start) < patience; time.Sleep(time.Millisecond) {
		p.Tick(time.Since(start).Seconds())
	}
	p.Paint(&list, float64(w), float64(h))
	for _, c := range p.Controls() {
		if c.ID != benchSlider {
			continue
		}
		step := func(i int) []input.Event {
			switch {
			case i >= moves:
				return nil
			case i == 0: // a click takes the focus; arrow keys move it from there
				x, y := c.Rect.X+c.Rect.W*0.3, c.Rect.Y+c.Rect.H/2
				return []input.Event{{Kind: input.Press, X: x, Y: y}, {Kind: input.Release, X: x, Y: y}}
			case i/20%2 == 0:
				return []input.Event{{Kind: input.KeyDown, Key: input.Right}}
			}
			return []input.Event{{Kind: input.KeyDown, Key: input.Left}}
		}
		return pace.Drive(p, float64(w), float64(h), 1, patience, step), nil
	}
	return t, failWith(Failed, "the slider %s is not on the screen", benchSlider)
}
