package chart

import (
	"math"
	"sort"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
)

// Series is one line or one cloud of points.
type Series struct {
	Name  string // written at its end; empty: not named
	X, Y  []float64
	Color draw.Color
	Dash  bool
	Dots  bool // points instead of a line
}

// Chart is a frame with two axes. Use Begin.
type Chart struct {
	U    *widget.UI
	X, Y Axis
	Plot draw.Rect // where the data go
	pts  []draw.Point
}

// Begin draws title, axes and ticks into r. names are the series' names, for which room is kept on the right.
func Begin(u *widget.UI, r draw.Rect, title string, x, y Axis, names ...string) *Chart {
	c := &Chart{U: u, X: x, Y: y}
	lh := u.LineHeight(theme.Small)
	top := r.Y
	top += u.Para(r.X, top, r.W, title, theme.Small, true, u.T.Ink)
	if y.Name != "" {
		top += u.Para(r.X, top, r.W, y.Name, theme.Small, false, u.T.Soft)
	}
	xName := 0.0
	if x.Name != "" {
		xName = u.Height(x.Name, theme.Small, false, r.W)
	}
	ys, yd := y.Marks()
	left, right := 0.0, u.S(10)
	for _, v := range ys {
		left = math.Max(left, u.Wide(u.W.Num(v, yd), theme.Small, false))
	}
	for _, n := range names {
		right = math.Max(right, math.Min(u.Wide(n, theme.Small, false)+u.S(8), r.W*0.34))
	}
	left += u.S(6)
	c.Plot = draw.Rect{X: r.X + left, Y: top + u.S(6), W: r.W - left - right, H: r.Y + r.H - xName - lh - u.S(8) - top - u.S(6)}
	if c.Plot.H < u.S(20) || c.Plot.W < u.S(30) {
		c.Plot.H, c.Plot.W = math.Max(c.Plot.H, 1), math.Max(c.Plot.W, 1)
		return c
	}
	every := 1 // of the ticks, so many have room for one number
	if len(ys) > 1 {
		every = max(1, int(math.Ceil(lh*float64(len(ys)-1)/c.Plot.H)))
	}
	for i, v := range ys {
		py := c.Plot.Y + c.Plot.H*(1-c.Y.At(v))
		u.List.FillRect(draw.Rect{X: c.Plot.X, Y: math.Round(py), W: c.Plot.W, H: 1}, u.T.Rule)
		if i%every == 0 {
			u.Text(draw.Rect{X: r.X, Y: py - lh/2, W: left - u.S(4), H: lh}, u.W.Num(v, yd), theme.Small, false, draw.End, u.T.Soft)
		}
	}
	xs, xd := x.Marks()
	last := math.Inf(-1)
	if x.Reverse {
		sort.Sort(sort.Reverse(sort.Float64Slice(xs)))
	}
	for _, v := range xs {
		px := c.Plot.X + c.Plot.W*c.X.At(v)
		text := u.W.Num(v, xd)
		w := u.Wide(text, theme.Small, false)
		u.List.FillRect(draw.Rect{X: math.Round(px), Y: c.Plot.Y + c.Plot.H, W: 1, H: u.S(3)}, u.T.Edge)
		if px-w/2 > last+u.S(6) && px+w/2 <= r.X+r.W {
			u.Text(draw.Rect{X: px - w/2, Y: c.Plot.Y + c.Plot.H + u.S(7), W: w, H: lh}, text, theme.Small, false, draw.Middle, u.T.Soft)
			last = px + w/2
		}
	}
	if x.Name != "" {
		u.Para(r.X+left, r.Y+r.H-xName, r.W-left, x.Name, theme.Small, false, u.T.Soft)
	}
	u.List.FillRect(draw.Rect{X: c.Plot.X, Y: c.Plot.Y + c.Plot.H, W: c.Plot.W, H: 1}, u.T.Edge)
	return c
}

// At maps a place in the data to the picture.
func (c *Chart) At(x, y float64) draw.Point {
	return draw.Point{X: c.Plot.X + c.Plot.W*c.X.At(x), Y: c.Plot.Y + c.Plot.H*(1-c.Y.At(y))}
}

// Lines draws series and writes their names at their right ends, moved apart.
func (c *Chart) Lines(series ...Series) {
	u := c.U
	type name struct {
		y float64
		s *Series
	}
	var names []name
	u.List.PushClip(draw.Rect{X: c.Plot.X - u.S(3), Y: c.Plot.Y - u.S(3), W: c.Plot.W + u.S(6), H: c.Plot.H + u.S(6)})
	for k := range series {
		s := &series[k]
		c.pts = c.pts[:0]
		var end draw.Point
		for i := range s.X {
			p := c.At(s.X[i], s.Y[i])
			if math.IsNaN(p.X) || math.IsNaN(p.Y) {
				c.flush(s)
				continue
			}
			c.pts = append(c.pts, p)
			if len(c.pts) == 1 && end.X == 0 || p.X >= end.X {
				end = p
			}
		}
		c.flush(s)
		if s.Name != "" && len(s.X) > 0 {
			names = append(names, name{end.Y, s})
		}
	}
	u.List.PopClip()
	sort.SliceStable(names, func(i, j int) bool { return names[i].y < names[j].y })
	lh := u.LineHeight(theme.Small)
	room := draw.Rect{X: c.Plot.X + c.Plot.W + u.S(4), W: math.Inf(1)}
	y := c.Plot.Y - lh/2
	need := float64(len(names)) * lh
	for i, n := range names {
		most := c.Plot.Y + c.Plot.H + u.S(4) - (need - float64(i)*lh)
		y = math.Max(y, math.Min(n.y-lh/2, most))
		w := u.Wide(n.s.Name, theme.Small, false)
		u.Text(draw.Rect{X: room.X, Y: y, W: w, H: lh}, n.s.Name, theme.Small, false, draw.Start, n.s.Color)
		y += lh
	}
}

func (c *Chart) flush(s *Series) {
	u := c.U
	switch {
	case s.Dots:
		for _, p := range c.pts {
			u.Disc(p.X, p.Y, u.S(2.5), s.Color)
		}
	case len(c.pts) < 2:
	case s.Dash:
		u.List.Dashed(s.Color, u.S(1.5), u.S(5), u.S(3), c.pts...)
	default:
		u.List.Line(s.Color, u.S(2), c.pts...)
	}
	c.pts = c.pts[:0]
}

// Cursor draws an upright line at x.
func (c *Chart) Cursor(x float64) {
	p := c.At(x, c.Y.Min)
	if p.X >= c.Plot.X-1 && p.X <= c.Plot.X+c.Plot.W+1 {
		c.U.List.Line(c.U.T.Ink, 1, draw.Point{X: p.X, Y: c.Plot.Y}, p)
	}
}

// Dot marks one place.
func (c *Chart) Dot(x, y float64, color draw.Color) {
	p := c.At(x, y)
	if !math.IsNaN(p.X) && !math.IsNaN(p.Y) {
		c.U.Disc(p.X, p.Y, c.U.S(4.5), c.U.T.Card)
		c.U.Disc(p.X, p.Y, c.U.S(3.5), color)
	}
}

// Bars draws upright bars from zero, each of a width in data units.
func (c *Chart) Bars(x, y []float64, width float64, color draw.Color) {
	zero := math.Min(math.Max(0, c.Y.Min), c.Y.Max)
	for i := range x {
		a, b := c.At(x[i]-width/2, zero), c.At(x[i]+width/2, y[i])
		c.U.List.FillRect(draw.Rect{X: math.Min(a.X, b.X), Y: math.Min(a.Y, b.Y), W: math.Abs(b.X - a.X), H: math.Abs(b.Y - a.Y)}, color)
	}
}

// Histogram counts values into n equal bins of the x axis and draws them as bars; the y axis must hold the counts.
func (c *Chart) Histogram(values []float64, n int, color draw.Color) {
	x, y := Counts(values, c.X.Min, c.X.Max, n)
	c.Bars(x, y, (c.X.Max-c.X.Min)/float64(n), color)
}

// Counts returns the middles of n equal bins from lo to hi and how many values fall in each; values outside are left out.
func Counts(values []float64, lo, hi float64, n int) (middle, count []float64) {
	middle, count = make([]float64, n), make([]float64, n)
	for i := range middle {
		middle[i] = lo + (float64(i)+0.5)*(hi-lo)/float64(n)
	}
	for _, v := range values {
		if v >= lo && v <= hi {
			count[min(int((v-lo)/(hi-lo)*float64(n)), n-1)]++
		}
	}
	return middle, count
}
