package command

import (
	"encoding/json"
	"fmt"
	"runtime"
	"time"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/valve"
)

type benchCmd struct {
	engineFlag
	Moves  int  `help:"How many slider moves to time at each size." default:"120"`
	Loaded bool `help:"Let a cohort run beside on every processor."`
	Window bool `help:"Measure in the window, with everything up to the submitted picture."`
	Page   bool `help:"Measure in the page, in a Chromium or Firefox found here."`
	JSON   bool `help:"Print as JSON."`

	Leaflets bool `help:"Measure the leaflets in three dimensions alone, on both meshes."`
}

// benchSizes are the pictures measured.
var benchSizes = [][2]int{{1024, 768}, {1280, 800}, {1920, 1080}}

// benchSlider is the control that is moved.
const benchSlider = "repair/sinus-band/shortening_mm"

// benchPatience is how long a move may take until its circulation is in the picture.
const benchPatience = 3 * time.Second

// shellPatience is the same until its leaflets have settled in three dimensions.
const shellPatience = time.Minute

type benchRow struct {
	Width   int          `json:"width"`
	Height  int          `json:"height"`
	First   pace.Summary `json:"first_picture"`          // the control has moved; the numbers may be marked as updating
	Quick   pace.Summary `json:"geometry_in_picture"`    // ring, leaflets, opening and artery are the new ones
	Numbers pace.Summary `json:"circulation_in_picture"` // every number is final
	Settled pace.Summary `json:"causes_in_picture"`      // and where the shortening went

	Shell *pace.Summary `json:"three_dimensions_in_picture,omitempty"` // the leaflets have settled in three dimensions
}

// rowOf is the row of a window or page that was driven.
func rowOf(w, h int, t pace.Summaries) benchRow {
	r := benchRow{Width: w, Height: h, First: t.First, Quick: t.Geometry, Numbers: t.Numbers, Settled: t.Causes}
	if t.Settled.Count > 0 {
		r.Shell = &t.Settled
	}
	return r
}

// shellShare is how many moves there are for one that waits for the leaflets in three dimensions, where neither window nor
// page is measured. Chosen: they take seconds.
const shellShare = 4

// benchPart is one line of a row.
type benchPart struct {
	what string
	sum  pace.Summary
}

// deep is the line of the leaflets in three dimensions, where they were asked for.
func (r *benchRow) deep() []benchPart {
	if r.Shell == nil {
		return nil
	}
	return []benchPart{{"three dimensions are in the picture", *r.Shell}}
}

// geometryOnly hides that an engine can refine, so that its first answer is its last.
type geometryOnly struct{ study.Engine }

// Run times the program's own work from a slider move to the finished picture, without a window: the solve, the layout
// and the painting, everything but the upload to the graphics card.
func (c *benchCmd) Run(s *Streams) error {
	if c.Moves < 2 || c.Moves > 10000 {
		return failWith(Usage, "--moves %d: out of range; allowed: 2 to 10000", c.Moves)
	}
	if c.Loaded {
		defer load()()
	}
	if c.Leaflets {
		return c.leaflets(s)
	}
	var y yardstick
	rows, where, err := c.measure(s, &y)
	if err != nil {
		return err
	}
	if c.Loaded {
		where += ", a cohort beside"
	}
	run := benchRun{valve.Notice, where, c.name(), runtime.GOOS + "/" + runtime.GOARCH, runtime.NumCPU(), y.ms(), rows}
	if err := warnSlow(s, run); err != nil {
		return err
	}
	if c.JSON {
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		return e.Encode(run)
	}
	fmt.Fprintf(s.Out, "From a move of the shortening slider to the picture, %s, %s, %d processors; a fixed piece of work beside it took %.2f ms.\n",
		where, run.System, run.Processors, run.Yardstick)
	for _, r := range rows {
		fmt.Fprintf(s.Out, "\n%d × %d\n", r.Width, r.Height)
		for _, part := range append([]benchPart{{"the control has moved", r.First}, {"the geometry is in the picture", r.Quick}, {"the circulation is in the picture", r.Numbers}, {"where the shortening went, too", r.Settled}}, r.deep()...) {
			if part.sum.Count == 0 {
				continue // not told apart here
			}
			fmt.Fprintf(s.Out, "%-36s p50 %5.1f  p95 %5.1f  p99 %5.1f ms\n", part.what, part.sum.P50, part.sum.P95, part.sum.P99)
		}
		if r.Quick.Count > 0 {
			fmt.Fprintf(s.Out, "geometry in the picture:\n%s", r.Quick)
		}
		fmt.Fprintf(s.Out, "circulation in the picture:\n%s", r.Numbers)
	}
	fmt.Fprintln(s.Out, "\n"+plain.Engine(c.name())+"\n"+valve.Notice)
	return nil
}

// measure returns a row for each size and says how it was measured.
func (c *benchCmd) measure(s *Streams, y *yardstick) (rows []benchRow, where string, err error) {
	y.measure()
	defer y.measure()
	switch {
	case c.Page:
		rows, where, err = c.inPage(s)
		return rows, where, c.told(s, rows, err)
	case c.Window:
		rows, err = c.inWindow()
		return rows, whereWindow, c.told(s, rows, err)
	}
	for _, size := range benchSizes {
		moves := c.Moves
		if c.shell() {
			moves = max(2, c.Moves/shellShare)
		}
		all, err := benchAt(runner(), size[0], size[1], moves, c.shell())
		if err != nil {
			return nil, "", err
		}
		row := rowOf(size[0], size[1], all.Summary())
		if !c.shell() { // the geometry alone: in the run above the answer before may still be refined
			quick, err := benchAt(study.NewSync(geometryOnly{study.NewSolver()}), size[0], size[1], moves, false)
			if err != nil {
				return nil, "", err
			}
			row.Quick = quick.Geometry.Summary()
		}
		y.measure()
		rows = append(rows, row)
	}
	return rows, whereAlone, nil
}

// told is the failure, or what the leaflets in three dimensions leave to say where they were asked for.
func (c *benchCmd) told(s *Streams, rows []benchRow, err error) error {
	if err != nil || !c.shell() {
		return err
	}
	for _, r := range rows {
		if r.Shell == nil {
			return failWith(NotConverged, "%d × %d: the leaflets settled in three dimensions after none of %d moves", r.Width, r.Height, r.Settled.Count)
		}
		if r.Shell.Count < r.Settled.Count {
			fmt.Fprintf(s.Err, "annuloscope: %d × %d: the shell settled after %d of %d moves; the others are not in its times\n", r.Width, r.Height, r.Shell.Count, r.Settled.Count)
		}
	}
	return nil
}
