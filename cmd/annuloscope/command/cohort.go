package command

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"

	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/save"
	"annuloscope/sim/cohort"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

type cohortCmd struct {
	engineFlag
	N       int      `short:"n" default:"100" help:"How many virtual patients."`
	Seed    uint64   `default:"1" help:"The same seed gives the same patients, byte for byte, on any number of threads."`
	Threads int      `default:"0" help:"Threads (0: one for each processor)."`
	Group   string   `default:"all" enum:"all,normal,functional,degenerative" help:"Which patients: all (a third each), normal, functional, degenerative."`
	Repair  []string `help:"A repair done to everybody: kind,key=value,… such as sinus-band,shortening_mm=20. May be given again." placeholder:"KIND,KEY=VALUE" sep:"none"`
	Full    bool     `help:"Run the closed-loop circulation instead of the orifice equation at rest."`
	Output  string   `short:"o" help:"Write one row a patient to this CSV file." placeholder:"F.csv"`
}

func (c *cohortCmd) Run(s *Streams) error {
	plan, err := c.plan()
	if err != nil {
		return err
	}
	summary := cohort.NewSummary(plan)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	work := func(w io.Writer) error { return c.solve(ctx, s, plan, summary, w) }
	if c.Output == "" {
		err = work(io.Discard)
	} else {
		err = save.File(c.Output, work)
	}
	if errors.Is(err, context.Canceled) {
		return failWith(Interrupted, "interrupted: nothing was written")
	}
	if err != nil {
		return failWith(Failed, "cohort: %w", err)
	}
	fmt.Fprint(s.Out, summary.Text()+"\n"+plain.Engine(c.name())+"\n"+valve.Notice+"\n")
	return nil
}

func (c *cohortCmd) plan() (cohort.Plan, error) {
	p := cohort.Plan{Seed: c.Seed, Mix: cohort.EqualMix(), Full: c.Full, Engine: c.name()}
	if c.N < 1 || c.N > 10_000_000 {
		return p, failWith(Usage, "-n %d: from 1 to 10000000 patients", c.N)
	}
	if c.Threads < 0 || c.Threads > 1024 {
		return p, failWith(Usage, "--threads %d: from 0 to 1024", c.Threads)
	}
	for _, g := range []cohort.Group{cohort.Normal, cohort.Functional, cohort.Degenerative} {
		if c.Group == g.String() {
			p.Mix = cohort.Only(g)
		}
	}
	for _, text := range c.Repair {
		step, err := repair.Parse(text)
		if err != nil {
			return p, err
		}
		p.Repairs = append(p.Repairs, step)
	}
	return p, repair.ValidateAll(p.Repairs)
}

func (c *cohortCmd) solve(ctx context.Context, s *Streams, p cohort.Plan, summary *cohort.Summary, w io.Writer) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "# %s\n# annuloscope %s cohort; virtual patients drawn from published figures; seed %d; patients %d; groups %s; tier %s\n",
		valve.Notice, valve.Version, c.Seed, c.N, c.Group, tier(c.Full)+"; engine "+c.name())
	for i, r := range p.Repairs {
		fmt.Fprintf(out, "# repair %d: %s\n", i+1, r)
	}
	table := csv.NewWriter(out)
	if err := table.Write(cohort.Header()); err != nil {
		return err
	}
	step, end := progress(s.Err, c.N, "patients")
	defer end()
	n := threadCount(c.Threads)
	err := ordered(ctx, c.N, n, 4*n,
		func() func(int) (cohort.Member, error) { return cohort.NewWorker(p).Member },
		func(_ int, m cohort.Member) error {
			summary.Add(&m)
			step()
			return table.Write(m.Row())
		})
	if err != nil {
		return err
	}
	table.Flush()
	return errors.Join(table.Error(), out.Flush())
}

func threadCount(asked int) int {
	if asked > 0 {
		return asked
	}
	return runtime.GOMAXPROCS(0)
}

// tier names the two tiers of the solver in a file's header.
func tier(full bool) string {
	if full {
		return "closed loop"
	}
	return "orifice equation at rest"
}
