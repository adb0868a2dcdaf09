package command

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/save"
	"annuloscope/sim/fault"
	"annuloscope/sim/sweep"
	"annuloscope/sim/valve"
)

type sweepCmd struct {
	Plan  sweepPlanCmd  `cmd:"" help:"Write a manifest: a case, the numbers to change and how."`
	Run   sweepRunCmd   `cmd:"" help:"Solve the rows of a manifest, or of one shard of it, into a CSV file."`
	Merge sweepMergeCmd `cmd:"" help:"Put the files of all shards together: the same bytes as one run."`
}

type sweepPlanCmd struct {
	caseFlags
	engineFlag
	Axis   []string `required:"" help:"A number to change: path=from:to:count (even steps), path=v1,v2,v3 (a list) or, for a sample, path=from:to. May be given again." placeholder:"PATH=VALUES" sep:"none"`
	Sample string   `default:"grid" enum:"grid,latin-hypercube,halton" help:"Every combination (grid), or a sample of the ranges (latin-hypercube, halton)."`
	Rows   int      `help:"How many rows a sample has." default:"0"`
	Seed   uint64   `default:"1" help:"Seed of a sample."`
	Full   bool     `help:"Run the closed-loop circulation instead of the orifice equation at rest."`
	Output string   `short:"o" required:"" help:"The manifest file." placeholder:"MANIFEST"`
}

func (c *sweepPlanCmd) Run(s *Streams) error {
	cs, err := c.load()
	if err != nil {
		return err
	}
	var axes []sweep.Axis
	for _, text := range c.Axis {
		a, err := parseAxis(text)
		if err != nil {
			return err
		}
		axes = append(axes, a)
	}
	m, err := sweep.New(cs, c.Sample, c.Rows, c.Seed, c.Full, axes)
	if err != nil {
		return err
	}
	if c.shell() { // left out where it is the usual one
		m.Engine = c.name()
	}
	text := append([]byte("# "+valve.NoticeFor(&cs.Patient)+"\n"), m.Encode()...)
	if err := save.File(c.Output, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return failWith(Failed, "writing %s: %w", c.Output, err)
	}
	fmt.Fprintf(s.Out, "%s: %d rows of %d numbers\n%s\n%s\n", c.Output, m.Points().Rows(), len(axes), plain.Engine(c.name()), valve.NoticeFor(&cs.Patient))
	return nil
}

// parseAxis reads path=from:to:count, path=from:to or path=v1,v2,v3.
func parseAxis(text string) (sweep.Axis, error) {
	path, values, ok := strings.Cut(text, "=")
	a := sweep.Axis{Path: strings.TrimSpace(path)}
	bad := func(value string) error {
		return &fault.Field{Path: "axis", Value: value, Problem: "not the values of an axis", Allowed: "path=from:to:count, path=from:to or path=v1,v2,v3",
			Fix: "write for example annulus.septal_lateral_mm=30:38:9"}
	}
	if !ok || values == "" {
		return a, bad(text)
	}
	separator := ","
	ranged := strings.Contains(values, ":")
	if ranged {
		separator = ":"
	}
	var v []float64
	for _, field := range strings.Split(values, separator) {
		x, err := strconv.ParseFloat(strings.TrimSpace(field), 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return a, bad(field)
		}
		v = append(v, x)
	}
	if !ranged {
		a.List = v
		return a, nil
	}
	if len(v) > 3 || len(v) == 3 && (v[2] != math.Trunc(v[2]) || v[2] < 1 || v[2] > sweep.MaxRows) {
		return a, bad(values)
	}
	a.Range = &sweep.Range{From: v[0], To: v[1]}
	if len(v) == 3 {
		a.Range.Count = int(v[2])
	}
	return a, nil
}

// loadManifest reads a manifest file.
func loadManifest(name string) (*sweep.Manifest, error) {
	data, err := readFile(name, sweep.MaxBytes+1)
	if err != nil {
		return nil, failWith(Failed, "reading %s: %w", name, err)
	}
	m, err := sweep.Decode(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return m, nil
}

type sweepMergeCmd struct {
	Files  []string `arg:"" help:"The result files of all shards."`
	Output string   `short:"o" required:"" help:"The merged CSV file." placeholder:"F.csv"`
}

func (c *sweepMergeCmd) Run(s *Streams) error {
	var inputs []sweep.Input
	for _, name := range c.Files {
		f, err := os.Open(name)
		if err != nil {
			return failWith(Failed, "reading: %w", err)
		}
		defer f.Close()
		inputs = append(inputs, sweep.Input{Name: name, R: f})
	}
	var t sweep.Tally
	err := save.File(c.Output, func(w io.Writer) (err error) {
		b := newBuffer(w)
		t, err = sweep.Merge(b, inputs)
		return errors.Join(err, b.Flush())
	})
	if err != nil {
		return failWith(Failed, "merge: %w", err)
	}
	fmt.Fprintf(s.Out, "%s: %s%s\n", c.Output, t.Text(), valve.Notice)
	return nil
}
