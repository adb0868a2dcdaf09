package desk

import (
	"strings"

	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/repair"
)

// placeTip explains the switch of a repair: what it is and what it closes off later.
func (d *Desk) placeTip(id string) (widget.Tip, bool) {
	ref, ok := strings.CutPrefix(id, "place/")
	kind, _, _ := strings.Cut(ref, "#")
	spec, known := repair.Find(repair.Kind(kind))
	if !ok || !known {
		return widget.Tip{}, false
	}
	w := d.W()
	source := spec.LaterSource()
	return widget.Tip{Title: tell.RepairName(w, ref), Rows: []widget.TipRow{
		{Head: w.T("tip.later"), Text: w.Table("later."+kind, spec.ClosesOff)},
		{Head: w.T("tip.source"), Text: w.Table("source."+source, source)}}}, true
}
