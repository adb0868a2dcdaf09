package cohortview

import (
	"math"

	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/cohort"
)

const (
	bins     = 24
	dotSize  = 3.2 // logical pixels at 100 %
	paleness = 0.22
	leastTop = 4 // patients at the top of a histogram's axis, at least
)

// label names a measure with its unit.
func (v *View) label(k *measure) string {
	w := v.d.W()
	return w.T("cohort.m."+k.name) + " (" + w.Unit(k.unit) + ")"
}

// charts draws the scatter and below it the histograms of its two axes.
func (v *View) charts(r draw.Rect) {
	u, w := v.d.U, v.d.W()
	if len(v.g.members) == 0 {
		text := w.T("cohort.wait")
		if v.g.failed != nil {
			text = v.g.failed.Error()
		}
		u.Centred(r, text, theme.Body, false, u.T.Soft)
		return
	}
	var values [2][]float64
	var axes [2]chart.Axis
	for k := range axes {
		m := &measures[v.axis[k]]
		values[k] = make([]float64, len(v.g.members))
		for i := range v.g.members {
			values[k][i] = m.value(&v.g.members[i])
		}
		axes[k].Ticks, axes[k].Zero = 5, m.unit != "mm"
		axes[k].Span(values[k])
		v.span[k] = [2]float64{axes[k].Min, axes[k].Max}
	}
	gap := u.S(12)
	under := r.W < u.S(narrowHisto)
	low := math.Max(u.S(leastHisto), r.H*0.3)
	if under {
		low = 2*u.S(leastHisto) + gap
	}
	v.scatter(draw.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - low - gap}, axes, values)
	hr := draw.Rect{X: r.X, Y: r.Y + r.H - low, W: (r.W - gap) / 2, H: low}
	if under {
		hr.W, hr.H = r.W, (low-gap)/2
	}
	v.histogram(0, hr, axes[0], values[0])
	if under {
		hr.Y += hr.H + gap
	} else {
		hr.X += hr.W + gap
	}
	v.histogram(1, hr, axes[1], values[1])
}

// scatter draws one mark a patient; those outside the ranges are pale.
func (v *View) scatter(r draw.Rect, axes [2]chart.Axis, values [2][]float64) {
	u, w := v.d.U, v.d.W()
	y := r.Y + v.legend(r.X, r.Y, r.W) + u.S(4)
	axes[0].Name = v.label(&measures[v.axis[0]])
	plot := draw.Rect{X: r.X, Y: y, W: r.W, H: r.Y + r.H - y}
	c := chart.Begin(u, plot, v.label(&measures[v.axis[1]]), axes[0], axes[1])
	u.Picture("cohort/scatter", c.Plot, w.T("cohort.scatter"))
	v.dots = v.dots[:0]
	for pass := range 2 { // the pale ones first
		for i := range v.g.members {
			m := &v.g.members[i]
			x, y := values[0][i], values[1][i]
			if math.IsNaN(x) || math.IsNaN(y) || v.kept(m) != (pass == 1) {
				continue
			}
			p := c.At(x, y)
			v.dots = append(v.dots, dot{i, p.X - c.Plot.X, p.Y - c.Plot.Y})
			ink := v.color(m.Group)
			if pass == 0 {
				ink = theme.Fade(ink, paleness)
			}
			v.mark(p, m.Group, u.Scale*dotSize, ink)
		}
	}
	if v.picked >= 0 && v.picked < len(v.g.members) {
		if p := c.At(values[0][v.picked], values[1][v.picked]); !math.IsNaN(p.X) && !math.IsNaN(p.Y) {
			u.Circle(p.X, p.Y, u.S(9), u.S(2.5), u.T.Ink)
		}
	}
}

// color and mark tell the groups apart by colour and by shape.
func (v *View) color(g cohort.Group) draw.Color {
	t := &v.d.U.T
	return [...]draw.Color{t.Better, t.Contact, t.Gap}[g]
}

func (v *View) mark(p draw.Point, g cohort.Group, size float64, ink draw.Color) {
	l := v.d.U.List
	switch g {
	case cohort.Normal:
		l.Fill(ink, draw.Point{X: p.X, Y: p.Y - 1.3*size}, draw.Point{X: p.X + 1.2*size, Y: p.Y + 0.9*size}, draw.Point{X: p.X - 1.2*size, Y: p.Y + 0.9*size})
	case cohort.Functional:
		v.d.U.Disc(p.X, p.Y, size, ink)
	default:
		l.FillRect(draw.Rect{X: p.X - 0.9*size, Y: p.Y - 0.9*size, W: 1.8 * size, H: 1.8 * size}, ink)
	}
}

// legend names the groups beside their marks and returns its height.
func (v *View) legend(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	lh := u.LineHeight(theme.Small)
	at, row := x, y
	for g := range cohort.Group(3) {
		if v.group > 0 && int(g) != v.group-1 {
			continue
		}
		name := w.T("cohort.group." + g.String())
		tw := u.Wide(name, theme.Small, false)
		if at > x && at+tw+u.S(30) > x+width {
			at, row = x, row+lh
		}
		v.mark(draw.Point{X: at + u.S(6), Y: row + lh/2}, g, u.S(4), v.color(g))
		u.Text(draw.Rect{X: at + u.S(14), Y: row, W: tw, H: lh}, name, theme.Small, false, draw.Start, u.T.Ink)
		at += tw + u.S(30)
	}
	return row + lh - y
}

// histogram draws how many patients have which value, those within both ranges darker, and the two ends of its range.
func (v *View) histogram(k int, r draw.Rect, x chart.Axis, values []float64) {
	u, w := v.d.U, v.d.W()
	m := &measures[v.axis[k]]
	var kept []float64
	for i := range values {
		if v.kept(&v.g.members[i]) {
			kept = append(kept, values[i])
		}
	}
	_, n := chart.Counts(values, x.Min, x.Max, bins)
	y := chart.Axis{Ticks: 2, Zero: true}
	y.Span(n, []float64{0, leastTop})
	x.Ticks = 4
	c := chart.Begin(u, r, v.label(m), x, y)
	c.Histogram(values, bins, theme.Mix(u.T.Card, u.T.Edge, 0.35))
	c.Histogram(kept, bins, u.T.Accent)
	side := [2]string{"cohort/x/", "cohort/y/"}[k]
	step := math.Pow(10, -float64(m.decimals))
	for end, id := range []string{"low", "high"} {
		at := v.span[k][end]
		if b := v.brush[k][end]; !math.IsNaN(b) {
			at = math.Min(math.Max(b, x.Min), x.Max)
		}
		p := c.At(at, 0)
		out := [2]draw.Rect{{X: c.Plot.X, Y: c.Plot.Y, W: p.X - c.Plot.X, H: c.Plot.H}, {X: p.X, Y: c.Plot.Y, W: c.Plot.X + c.Plot.W - p.X, H: c.Plot.H}}[end]
		u.List.FillRect(out, theme.Fade(u.T.Card, 0.6))
		u.List.Line(u.T.Ink, u.S(1.5), draw.Point{X: p.X, Y: c.Plot.Y}, draw.Point{X: p.X, Y: c.Plot.Y + c.Plot.H})
		size := u.S(12)
		mid := c.Plot.Y + c.Plot.H*[2]float64{0.35, 0.65}[end]
		u.Grip(draw.Rect{X: p.X - size, Y: mid - size, W: 2 * size, H: 2 * size}, c.Plot, widget.SliderSpec{ID: side + id,
			Name: w.F("cohort."+id, "name", w.T("cohort.m."+m.name)), Value: math.Round(at/step) * step, Min: x.Min, Max: x.Max, Step: step, Decimals: m.decimals, Unit: m.unit})
		u.Disc(p.X, mid, u.S(7), u.T.Card)
		u.Circle(p.X, mid, u.S(7), u.S(2), u.T.Ink)
	}
}
