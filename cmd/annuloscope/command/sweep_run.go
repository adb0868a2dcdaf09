package command

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"

	"annuloscope/sim/sweep"
	"annuloscope/sim/valve"
)

type sweepRunCmd struct {
	Manifest string `arg:"" help:"A manifest written by sweep plan."`
	Shard    string `help:"Solve part i of n, such as 2/8. Without it the array variables of Slurm (SLURM_ARRAY_TASK_ID, _MIN and _COUNT) choose the part, or everything is solved." placeholder:"I/N"`
	Resume   bool   `help:"Go on with a file that an earlier run left."`
	Threads  int    `default:"1" help:"Threads (0: one for each processor). Killing a run loses at most one row a thread."`
	Output   string `short:"o" required:"" help:"The CSV file, one for each shard." placeholder:"F.csv"`
}

func (c *sweepRunCmd) Run(s *Streams) error {
	shard, err := c.shard(os.Getenv)
	if err != nil {
		return err
	}
	if c.Threads < 0 || c.Threads > 1024 {
		return failWith(Usage, "--threads %d: from 0 to 1024", c.Threads)
	}
	m, err := loadManifest(c.Manifest)
	if err != nil {
		return err
	}
	file, done, tally, err := c.open(m, shard)
	if err != nil {
		return failWith(Failed, "%s: %w", c.Output, err)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	err = errors.Join(c.solve(ctx, s, m, shard, file, done, &tally), file.Close())
	if errors.Is(err, context.Canceled) {
		return failWith(Interrupted, "interrupted after %d rows: go on with --resume", tally.Rows)
	}
	if err != nil {
		return failWith(Failed, "%s: %w", c.Output, err)
	}
	fmt.Fprintf(s.Out, "%s: shard %d/%d, %s%s\n", c.Output, shard.Number, shard.Of, tally.Text(), valve.Notice)
	return nil
}

func (c *sweepRunCmd) shard(variable func(string) string) (sweep.Shard, error) {
	if c.Shard != "" {
		return sweep.ParseShard(c.Shard)
	}
	s, ok, err := sweep.ArrayShard(variable("SLURM_ARRAY_TASK_ID"), variable("SLURM_ARRAY_TASK_MIN"), variable("SLURM_ARRAY_TASK_COUNT"))
	if !ok {
		return sweep.Whole(), nil
	}
	return s, err
}

// open makes the result file with its header, or takes up the one that is there after its last complete row.
func (c *sweepRunCmd) open(m *sweep.Manifest, shard sweep.Shard) (f *os.File, done int, t sweep.Tally, err error) {
	flags := os.O_RDWR | os.O_CREATE
	if !c.Resume {
		flags |= os.O_EXCL
	}
	f, err = os.OpenFile(c.Output, flags, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return nil, 0, t, errors.New("the file is there already: go on with it by --resume, or name another")
	}
	if err != nil {
		return nil, 0, t, err
	}
	done, keep, t, err := sweep.Resume(f, m, shard)
	if err == nil {
		err = f.Truncate(keep)
	}
	if err == nil {
		_, err = f.Seek(keep, io.SeekStart)
	}
	if err == nil && keep == 0 {
		_, err = io.WriteString(f, m.Header())
	}
	if err != nil {
		return nil, 0, t, errors.Join(err, f.Close())
	}
	return f, done, t, nil
}

// solve appends the rows that are missing, each written and synced before the next.
func (c *sweepRunCmd) solve(ctx context.Context, s *Streams, m *sweep.Manifest, shard sweep.Shard, f *os.File, done int, t *sweep.Tally) error {
	points := m.Points()
	left := shard.Count(points.Rows()) - done
	step, end := progress(s.Err, left, "rows")
	defer end()
	n := threadCount(c.Threads)
	start := func() func(int) (sweep.Row, error) {
		w := sweep.NewWorker(m, points)
		return func(k int) (sweep.Row, error) { return w.Row(shard.Row(done + k)), nil }
	}
	return ordered(ctx, left, n, n, start, func(_ int, r sweep.Row) error {
		if _, err := io.WriteString(f, r.Line); err != nil {
			return err
		}
		t.Add(r.Status, r.Reason)
		step()
		return f.Sync()
	})
}

func newBuffer(w io.Writer) *bufio.Writer { return bufio.NewWriterSize(w, 1<<16) }
