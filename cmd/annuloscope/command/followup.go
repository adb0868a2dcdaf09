package command

import (
	"fmt"

	"annuloscope/scenes/present/plain"
	"annuloscope/sim/valve"
)

type followupCmd struct {
	caseFlags
	engineFlag
	Days int  `help:"Last day, 1 to 365." default:"180"`
	Step int  `help:"Days from one row to the next, 1 to 100." default:"14"`
	JSON bool `help:"Print the rows as JSON."`
}

// Run follows a sinus band that shortens over weeks.
func (c *followupCmd) Run(s *Streams) error {
	switch {
	case c.Days < 1 || c.Days > 365:
		return failWith(Usage, "--days %d: out of range; allowed: 1 to 365", c.Days)
	case c.Step < 1 || c.Step > 100:
		return failWith(Usage, "--step %d: out of range; allowed: 1 to 100", c.Step)
	}
	cs, err := c.load()
	if err != nil {
		return err
	}
	var days []float64
	for d := 0; d <= c.Days; d += c.Step {
		days = append(days, float64(d))
	}
	rows, err := valve.FollowUp(cs, days, c.options(valve.Options{Warm: true}))
	if err != nil {
		return err
	}
	var by []string
	for _, r := range rows {
		by = append(by, r.Engine)
	}
	c.warnAny(s, by...)
	late, isLate := valve.LateCompression(rows)
	if c.JSON {
		v := struct {
			Notice          string              `json:"notice"`
			Rows            []valve.FollowUpDay `json:"rows"`
			LateCompression *float64            `json:"late_compression_day"` // null: none
		}{Notice: valve.NoticeFor(&cs.Patient), Rows: rows}
		if isLate {
			v.LateCompression = &late
		}
		return indented(s.Out, v)
	}
	cells := [][]string{{"day", "shortening mm", "tension N", "slip mm", "septal-lateral mm", "leak cm²", "artery %", "branch %", "flow reserve", "risk", "leaflets", "status"}}
	for _, r := range rows {
		cells = append(cells, []string{plain.Number(r.Day, 0), plain.Number(r.ShorteningMM, 1), plain.Number(r.TensionN, 2), plain.Number(r.SlipMM, 1), plain.Number(r.SeptalLateralMM, 1),
			plain.Number(r.OrificeCM2, 2), plain.Number(r.NarrowingPct, 0), plain.Number(r.BranchPct, 0), plain.Number(r.FlowReserve, 2), r.Risk, r.Engine, r.Status})
	}
	if err := plain.Table(s.Out, cells); err != nil {
		return err
	}
	if _, err := fmt.Fprintln(s.Out, "\n"+plain.Engines(c.name(), by...)); err != nil {
		return err
	}
	if isLate {
		if _, err := fmt.Fprintf(s.Out, "\nLate compression: the artery's risk rises on or before day %.0f, although nothing was done then.\n", late); err != nil {
			return err
		}
	}
	return notice(s.Out, valve.NoticeFor(&cs.Patient))
}

type tradeCmd struct {
	caseFlags
	engineFlag
	JSON bool `help:"Print the rows as JSON."`
}

// Run moves the far anchor along the vein.
func (c *tradeCmd) Run(s *Streams) error {
	cs, err := c.load()
	if err != nil {
		return err
	}
	rows, err := valve.AnchorTrade(cs, valve.TradeStations(cs), c.options(valve.Options{Warm: true}))
	if err != nil {
		return err
	}
	var by []string
	for _, r := range rows {
		by = append(by, r.EqualTension.Engine, r.EqualPercent.Engine)
	}
	c.warnAny(s, by...)
	if c.JSON {
		return indented(s.Out, struct {
			Notice string             `json:"notice"`
			Rows   []valve.TradePoint `json:"rows"`
		}{valve.NoticeFor(&cs.Patient), rows})
	}
	cells := [][]string{{"far anchor mm", "past crossing mm", "equal tension: septal-lateral mm", "leak cm²", "artery %", "branch %", "equal percentage: septal-lateral mm", "leak cm²", "artery %", "branch %"}}
	for _, r := range rows {
		t, q := r.EqualTension, r.EqualPercent
		cells = append(cells, []string{plain.Number(r.DistalMM, 0), plain.Number(r.BeyondMM, 0), plain.Number(-t.SeptalLateralMM, 2), plain.Number(t.OrificeCM2, 2), plain.Number(t.NarrowingPct, 0), plain.Number(t.BranchPct, 0),
			plain.Number(-q.SeptalLateralMM, 2), plain.Number(q.OrificeCM2, 2), plain.Number(q.NarrowingPct, 0), plain.Number(q.BranchPct, 0)})
	}
	if err := plain.Table(s.Out, cells); err != nil {
		return err
	}
	if _, err := fmt.Fprintln(s.Out, "\n"+plain.Engines(c.name(), by...)); err != nil {
		return err
	}
	return notice(s.Out, valve.NoticeFor(&cs.Patient))
}
