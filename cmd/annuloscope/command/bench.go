package command

import (
	"encoding/json"
	"fmt"
	"runtime"
	"time"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/valve"
)

type benchCmd struct {
	Moves int  `help:"How many slider moves to time at each size." default:"120"`
	JSON  bool `help:"Print as JSON."`
}

// benchPatience is how long a move may take until its circulation is in the picture.
const benchPatience = 3 * time.Second

type benchRow struct {
	Width   int          `json:"width"`
	Height  int          `json:"height"`
	First   pace.Summary `json:"first_picture"`          // the control has moved; the numbers may be marked as updating
	Quick   pace.Summary `json:"geometry_in_picture"`    // ring, leaflets, opening and artery are the new ones
	Settled pace.Summary `json:"circulation_in_picture"` // nothing is marked as updating any more
}

// geometryOnly hides that an engine can refine, so that its first answer is its last.
type geometryOnly struct{ study.Engine }

// Run times the program's own work from a slider move to the finished picture, without a window: the solve, the layout
// and the painting, everything but the upload to the graphics card.
func (c *benchCmd) Run(s *Streams) error {
	if c.Moves < 10 || c.Moves > 10000 {
		return failWith(Usage, "--moves %d: out of range; allowed: 10 to 10000", c.Moves)
	}
	var rows []benchRow
	for _, size := range [][2]int{{1024, 768}, {1280, 800}, {1920, 1080}} {
		first, settled, err := benchAt(runner(), size[0], size[1], c.Moves)
		if err != nil {
			return err
		}
		_, quick, err := benchAt(study.NewSync(geometryOnly{study.NewSolver()}), size[0], size[1], c.Moves)
		if err != nil {
			return err
		}
		rows = append(rows, benchRow{size[0], size[1], first, quick, settled})
	}
	if c.JSON {
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		return e.Encode(map[string]any{"notice": valve.Notice, "system": runtime.GOOS + "/" + runtime.GOARCH, "processors": runtime.NumCPU(), "sizes": rows})
	}
	fmt.Fprintf(s.Out, "From a move of the shortening slider to the finished picture, own time, no window, %s/%s, %d processors.\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
	for _, r := range rows {
		fmt.Fprintf(s.Out, "\n%d × %d, processor painter\n", r.Width, r.Height)
		for _, part := range []struct {
			what string
			sum  pace.Summary
		}{{"the control has moved", r.First}, {"the geometry is in the picture", r.Quick}, {"the circulation is in the picture", r.Settled}} {
			fmt.Fprintf(s.Out, "%-36s p50 %5.1f  p95 %5.1f  p99 %5.1f ms\n", part.what, part.sum.P50, part.sum.P95, part.sum.P99)
		}
		fmt.Fprintf(s.Out, "geometry in the picture:\n%s\n", r.Quick)
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

// benchAt moves the slider and returns the times to the first picture and to the last answer in the picture.
func benchAt(r study.Runner, w, h, moves int) (first, settled pace.Summary, err error) {
	cases, err := openCases("")
	if err != nil {
		return first, settled, err
	}
	p := program.New(program.Config{Runner: r, Cases: cases})
	var list draw.List
	for start := time.Now(); p.Pending() && time.Since(start) < benchPatience; time.Sleep(time.Millisecond) {
		p.Tick(time.Since(start).Seconds())
	}
	p.Paint(&list, float64(w), float64(h))
	const id = "repair/sinus-band/shortening_mm"
	for _, c := range p.Controls() {
		if c.ID != id {
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
		begun, done := pace.Drive(p, float64(w), float64(h), 1, benchPatience, step)
		return begun.Summary(), done.Summary(), nil
	}
	return first, settled, failWith(Failed, "the slider %s is not on the screen", id)
}
