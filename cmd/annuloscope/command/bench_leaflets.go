package command

import (
	"encoding/json"
	"fmt"
	"runtime"
	"slices"
	"time"

	"annuloscope/sim/leaflet"
	"annuloscope/sim/valve"
)

// leafletRow is the time of the leaflets in three dimensions on one mesh, ms.
type leafletRow struct {
	Columns int     `json:"columns"`
	Rows    int     `json:"rows"`
	Drag    spread  `json:"drag"`    // septal-lateral diameter moved by 0.2 mm, near enough for a picture
	Warm    spread  `json:"warm"`    // moved by 1 mm, to rest
	Cold    spread  `json:"cold"`    // closed, open and with a bond
	Measure spread  `json:"measure"` // reading the numbers and fields off a state
	Failed  int     `json:"failed"`  // states that did not settle
	Steps   float64 `json:"iterations_a_warm_step"`
}

type spread struct {
	P50 float64 `json:"p50_ms"`
	P95 float64 `json:"p95_ms"`
	Max float64 `json:"max_ms"`
}

func spreadOf(all []time.Duration) spread {
	slices.Sort(all)
	at := func(q float64) float64 { return float64(all[int(q*float64(len(all)-1))].Microseconds()) / 1000 }
	return spread{at(0.5), at(0.95), at(1)}
}

// leaflets times the solver of the leaflets on both meshes.
func (c *benchCmd) leaflets(s *Streams) error {
	var rows []leafletRow
	for _, m := range [][2]int{{leaflet.DragColumns, leaflet.DragRows}, {leaflet.ShownColumns, leaflet.ShownRows}} {
		rows = append(rows, timeLeaflets(m[0], m[1], c.Moves))
	}
	if c.JSON {
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		return e.Encode(map[string]any{"notice": valve.Notice, "system": runtime.GOOS + "/" + runtime.GOARCH, "processors": runtime.NumCPU(), "leaflets": rows})
	}
	fmt.Fprintf(s.Out, "The leaflets in three dimensions, %s/%s, %d processors, one used.\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
	for _, r := range rows {
		fmt.Fprintf(s.Out, "\n%d × %d, %d not settled, %.1f iterations a warm step\n", r.Columns, r.Rows, r.Failed, r.Steps)
		for _, p := range []struct {
			what string
			of   spread
		}{{"dragging, 0.2 mm, near enough to show", r.Drag}, {"warm, 1 mm of septal-lateral diameter", r.Warm}, {"cold: closed, open, with a bond", r.Cold}, {"reading numbers and fields", r.Measure}} {
			fmt.Fprintf(s.Out, "%-39s p50 %6.1f  p95 %6.1f  most %6.1f ms\n", p.what, p.of.P50, p.of.P95, p.of.Max)
		}
	}
	fmt.Fprintln(s.Out, "\n"+valve.Notice)
	return nil
}

func timeLeaflets(columns, rows, moves int) leafletRow {
	const narrow, wide = 28, 34 // mm
	tissue := leaflet.NewAnatomy(leaflet.EllipseAnnulus(narrow, 38, 6, 128))
	at := func(mm float64) leaflet.Input {
		in := leaflet.NewInput(tissue)
		in.Annulus = leaflet.EllipseAnnulus(mm, 38, 6, 128)
		return in
	}
	out := leafletRow{Columns: columns, Rows: rows}
	solver := leaflet.New(columns, rows)
	var drag, warm, cold, measure []time.Duration
	timed := func(in leaflet.Input, into *[]time.Duration) {
		start := time.Now()
		status, err := solver.Solve(in)
		*into = append(*into, time.Since(start))
		if err != nil || status != leaflet.Converged {
			out.Failed++
		}
		start = time.Now()
		out.Steps += float64(solver.Result().Iterations)
		measure = append(measure, time.Since(start))
	}
	open := at(narrow)
	open.Phase, open.PressureNMM2 = leaflet.Diastole, 4*133.322e-6
	bonded := open
	bonded.Bonds = []leaflet.Bond{{WidthMM: 5, ReachMM: 6, Hold: 1}}
	for range max(1, moves/12) {
		for _, in := range []leaflet.Input{at(30), open, bonded} {
			solver.Reset()
			timed(in, &cold)
		}
	}
	solver.Reset()
	timed(at(narrow), new([]time.Duration))
	out.Steps = 0
	for i := range moves {
		timed(at(upAndDown(i, narrow, wide, 1)), &warm)
	}
	out.Steps /= float64(moves)
	for i := range moves {
		in := at(upAndDown(i, narrow, wide, 0.2))
		start := time.Now()
		if solver.Set(in) != nil || !solver.Near(dragMost) {
			out.Failed++
		}
		drag = append(drag, time.Since(start))
	}
	out.Drag, out.Warm, out.Cold, out.Measure = spreadOf(drag), spreadOf(warm), spreadOf(cold), spreadOf(measure)
	return out
}

// dragMost is how many iterations a picture of the leaflets may take before it counts as not there. Chosen.
const dragMost = 60

// upAndDown is the i-th value of a walk from low to high and back in steps, low itself left out at the beginning.
func upAndDown(i int, low, high, step float64) float64 {
	n := int((high-low)/step + 0.5)
	k := (i + 1) % (2 * n)
	return low + step*float64(min(k, 2*n-k))
}
