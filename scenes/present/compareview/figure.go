package compareview

import (
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// Figure draws all columns side by side into r, the colour scale and the main numbers below them, without controls. Work
// must have gone through first.
func (v *View) Figure(r draw.Rect, numbers bool) {
	u := v.d.U
	v.bare = true
	v.load()
	n := len(v.c.Columns)
	if n == 0 {
		return
	}
	gap, left := u.S(theme.Grid), u.S(272)
	if !numbers {
		left = 0
	}
	width := (r.W - left - gap*float64(n-1)) / float64(n)
	var all []int
	for i := range n {
		all = append(all, i)
	}
	head := v.headHeight(all, width-u.S(16))
	key := 0.0
	if v.shown().name != "" {
		key = v.legendHeight(r.W-left) + gap
	}
	h := r.H - key
	table := grid{x: r.X, label: left - u.S(8), first: r.X + left, column: width, gap: gap, columns: all, dense: true}
	if numbers { // drawn once to see how tall it is
		list := u.List
		u.List = new(draw.List)
		h -= v.table(table) + gap
		u.List = list
		h = min(max(h, head+u.S(80)), head+width)
	}
	for k, i := range all {
		v.column(i, draw.Rect{X: r.X + left + float64(k)*(width+gap), Y: r.Y, W: width, H: h}, head)
	}
	y := r.Y + h + gap
	if key > 0 {
		v.legend(r.X+left, y, r.W-left)
		y += key
	}
	if numbers {
		table.y = y
		v.table(table)
	}
}

// Work solves one more plan and tells whether one is left.
func (v *View) Work() (more bool) {
	v.c.SetShell(v.d.V.Engine == valve.ShellEngine)
	v.c.Follow(v.d.S.Case, v.d.S.Plans())
	return v.c.Busy()
}
