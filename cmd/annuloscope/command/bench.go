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
	First   pace.Summary `json:"first_picture"`
	Settled pace.Summary `json:"circulation_in_picture"`
}

// Run times the program's own work from a slider move to the finished picture, without a window: the solve, the layout
// and the painting, everything but the upload to the graphics card.
func (c *benchCmd) Run(s *Streams) error {
	if c.Moves < 10 || c.Moves > 10000 {
		return failWith(Usage, "--moves %d: out of range; allowed: 10 to 10000", c.Moves)
	}
	var rows []benchRow
	for _, size := range [][2]int{{1024, 768}, {1280, 800}, {1920, 1080}} {
		row, err := benchAt(size[0], size[1], c.Moves)
		if err != nil {
			return err
		}
		rows = append(rows, row)
	}
	if c.JSON {
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		return e.Encode(map[string]any{"notice": valve.Notice, "system": runtime.GOOS + "/" + runtime.GOARCH, "processors": runtime.NumCPU(), "sizes": rows})
	}
	fmt.Fprintf(s.Out, "From a move of the shortening slider to the finished picture, own time, no window, %s/%s, %d processors.\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
	for _, r := range rows {
		fmt.Fprintf(s.Out, "\n%d × %d, first picture (geometry): p50 %.1f, p95 %.1f, p99 %.1f ms\n%s\nwith the circulation: p50 %.1f, p95 %.1f, p99 %.1f ms\n",
			r.Width, r.Height, r.First.P50, r.First.P95, r.First.P99, r.First, r.Settled.P50, r.Settled.P95, r.Settled.P99)
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

func benchAt(w, h, moves int) (benchRow, error) {
	cases, err := openCases("")
	if err != nil {
		return benchRow{}, err
	}
	p := program.New(program.Config{Runner: runner(), Cases: cases})
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
		first, settled := pace.Drive(p, float64(w), float64(h), 1, benchPatience, step)
		return benchRow{w, h, first.Summary(), settled.Summary()}, nil
	}
	return benchRow{}, failWith(Failed, "the slider %s is not on the screen", id)
}
