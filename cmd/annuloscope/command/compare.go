package command

import (
	"encoding/json"
	"fmt"
	"math"

	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// planFlags are the plans of a comparison.
type planFlags struct {
	Plan []string `help:"A plan to compare with the untreated valve: name: repair; repair, each repair as --repair takes it, such as \"both: sinus-band,shortening_mm=20; edge-clip\". Up to three." placeholder:"NAME: KIND,KEY=VALUE; …" sep:"none"`
}

// plans reads the plans. Without any they are the case's own repairs, or else the band alone, the clip alone, and both.
func (f *planFlags) plans(c casefile.Case, language string) ([]study.Plan, error) {
	if len(f.Plan) > study.MostPlans {
		return nil, failWith(Usage, "--plan was given %d times; at most %d plans fit beside the untreated valve", len(f.Plan), study.MostPlans)
	}
	var out []study.Plan
	for _, text := range f.Plan {
		p, err := study.ParsePlan(text)
		if err != nil {
			return nil, err
		}
		if err := p.On(c).Validate(); err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	w := words.For(words.Language(language))
	switch {
	case len(out) > 0:
	case len(c.Repairs) > 0:
		out = []study.Plan{{Name: w.T("compare.plan.given"), Repairs: c.Repairs}}
	default:
		out = study.Suggested(c, func(kinds ...repair.Kind) string { return tell.PlanName(w, kinds...) })
	}
	return out, nil
}

// coldRunner is a runner for everything a command solves beside the case itself: each from the start, so that the same
// command gives the same bytes.
func coldRunner() study.Runner { return study.NewSync(study.NewCold()) }

// warmRunner is a runner for the pictures of a film: each starts from the one before, always in the same order, so that
// the same command still gives the same bytes.
func warmRunner() study.Runner { return study.NewSync(study.NewFull()) }

type compareCmd struct {
	caseFlags
	engineFlag
	planFlags
	JSON bool `help:"Print plans, states, verdicts and the sentence as JSON." xor:"form"`
	CSV  bool `name:"csv" help:"Print the table as comma-separated values." xor:"form"`
}

func (c *compareCmd) Run(s *Streams) error {
	cs, err := c.load()
	if err != nil {
		return err
	}
	plans, err := c.plans(cs, "en")
	if err != nil {
		return err
	}
	k := study.NewComparison(coldRunner())
	k.SetShell(c.shell())
	k.Settle(cs, plans)
	for i := range k.Columns {
		if err := k.Columns[i].Failure; err != nil {
			return err
		}
	}
	if n := len(k.Refused()); n > 0 {
		fmt.Fprintf(s.Err, "annuloscope: the shell did not settle in %d of %d columns; all numbers are those of the sections\n", n, len(k.Columns))
	}
	notice := valve.NoticeFor(&cs.Patient)
	switch {
	case c.JSON:
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		err = e.Encode(comparison(k, notice))
	case c.CSV:
		err = plain.ComparisonCSV(s.Out, k, notice)
	default:
		err = plain.Comparison(s.Out, k, notice)
	}
	if err != nil {
		return err
	}
	for i := range k.Columns {
		if p := &k.Columns[i].Report.Provenance; !p.Converged {
			return failWith(NotConverged, "not converged: %s", p.Status)
		}
	}
	return nil
}

// comparisonJSON is the comparison as data.
type comparisonJSON struct {
	Notice     string        `json:"notice"`
	Case       string        `json:"case"`
	CaseSHA256 string        `json:"case_sha256"`
	Version    string        `json:"version"`
	Engine     string        `json:"engine"` // of all columns
	Sentence   string        `json:"sentence"`
	Untreated  *valve.State  `json:"untreated"`
	Plans      []planJSON    `json:"plans"`
	Ranking    []rankingJSON `json:"ranking"`
}

type planJSON struct {
	Name       string             `json:"name"`
	Repairs    []string           `json:"repairs"`
	State      *valve.State       `json:"state"`
	Change     map[string]float64 `json:"change"`
	Findings   []valve.Finding    `json:"findings"`
	Provenance valve.Provenance   `json:"provenance"`
}

// rankingJSON is one quantity over all columns, the untreated valve first. A value that does not apply is null.
type rankingJSON struct {
	Quantity string     `json:"quantity"`
	Unit     string     `json:"unit"`
	Better   string     `json:"better"` // lower, higher or none
	Values   []*float64 `json:"values"`
	Verdicts []string   `json:"verdicts"` // best, better, worse, or empty
}

func comparison(c *study.Comparison, notice string) comparisonJSON {
	first := &c.Columns[0].Report
	out := comparisonJSON{Notice: notice, Case: first.Provenance.CaseName, CaseSHA256: first.Provenance.CaseSHA256, Version: valve.Version, Engine: first.Provenance.Engine,
		Sentence: tell.Comparison(words.For(words.English), c.Base(), tell.Solved(c)), Untreated: &first.After}
	for i := 1; i < len(c.Columns); i++ {
		k := &c.Columns[i]
		p := planJSON{Name: k.Plan.Name, Repairs: []string{}, State: &k.Report.After, Change: k.Report.Change, Findings: k.Report.Findings, Provenance: k.Report.Provenance}
		for _, st := range k.Plan.Repairs {
			p.Repairs = append(p.Repairs, st.String())
		}
		out.Plans = append(out.Plans, p)
	}
	for _, q := range valve.Quantities() {
		r := tell.Rank(q, c)
		if !r.Applies {
			continue
		}
		row := rankingJSON{Quantity: q.Path, Unit: q.Unit, Better: [...]string{"none", "lower", "higher"}[q.Better]}
		for i, v := range r.Values {
			var at *float64
			if !math.IsNaN(v) {
				at = &r.Values[i]
			}
			row.Values = append(row.Values, at)
			row.Verdicts = append(row.Verdicts, map[tell.Mark]string{tell.Best: "best", tell.BetterThan: "better", tell.WorseThan: "worse"}[r.Marks[i]])
		}
		out.Ranking = append(out.Ranking, row)
	}
	return out
}
