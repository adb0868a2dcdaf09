package compareview

import (
	"math"

	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// show is what the pictures can show: the valve, or a map of a length along the line.
type show struct {
	name   string                       // study.View.Map
	of     func(*valve.Station) float64 // nil: no map
	change bool                         // plan minus untreated
}

// index is the place of the map in use.
func (v *View) index() int {
	for i, s := range shows {
		if s.name == v.d.V.Map {
			return i
		}
	}
	return 0
}

func contact(s *valve.Station) float64 { return s.ContactMM }
func gap(s *valve.Station) float64     { return s.GapMM }

var shows = [...]show{{}, {"contact", contact, false}, {"gap", gap, false}, {"contact.change", contact, true}, {"gap.change", gap, true}}

// field is a map over all columns: one value per station, one range for all.
type field struct {
	values [][]float64 // by column; nil where there is none
	axis   chart.Axis
}

const (
	leastContact = 1.0 // mm, the least range of a map, so that noise is not blown up; chosen
	leastChange  = 0.5 // mm either way
)

// makeField computes the map and colours the models with it.
func (v *View) makeField() {
	sh := shows[v.index()]
	v.field = field{values: make([][]float64, len(v.c.Columns)), axis: chart.Axis{Ticks: 4}}
	if sh.of == nil {
		return
	}
	base := v.models[0].Shapes.Stations
	most := leastContact
	if sh.change {
		most = leastChange
	}
	for i := range v.c.Columns {
		stations := v.models[i].Shapes.Stations
		if len(stations) == 0 || sh.change && len(base) == 0 {
			continue
		}
		values := make([]float64, len(stations))
		for k := range stations {
			values[k] = sh.of(&stations[k])
			if sh.change {
				values[k] -= between(base, stations[k].S, sh.of)
			}
			most = math.Max(most, math.Abs(values[k]))
		}
		v.field.values[i] = values
	}
	if sh.change {
		v.field.axis.Span([]float64{-most, most})
	} else {
		v.field.axis.Span([]float64{0, most})
	}
	for i, values := range v.field.values {
		if values != nil {
			v.models[i].Tint(func(k int) draw.Color { return v.colour(values[k]) })
		}
	}
}

// colour is that of a value on the scale in use.
func (v *View) colour(x float64) draw.Color {
	if shows[v.index()].change {
		return theme.Diverging(x / v.field.axis.Max)
	}
	return theme.Cividis(x / v.field.axis.Max)
}

// between reads a length at a position between two stations; outside them it is that of the nearest.
func between(all []valve.Station, s float64, of func(*valve.Station) float64) float64 {
	i := 1
	for i < len(all)-1 && all[i].S < s {
		i++
	}
	if len(all) == 1 {
		return of(&all[0])
	}
	a, b := &all[i-1], &all[i]
	t := math.Min(math.Max((s-a.S)/(b.S-a.S), 0), 1)
	return of(a)*(1-t) + of(b)*t
}

// legend draws the colour scale with its unit, its ticks and, for a change, words at its ends; it returns its height. Where
// there is room the name stands beside the scale.
func (v *View) legend(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	sh := shows[v.index()]
	h := v.legendHeight(width)
	name, bar := v.legendParts(x, width)
	ty := u.Para(x, y, name, w.T("compare.map."+sh.name), theme.Small, true, u.T.Ink)
	if sh.change {
		ty += u.Para(x, y+ty, name, w.T("compare.ends."+sh.name), theme.Small, false, u.T.Soft)
	}
	bar.Y, bar.H = y+u.S(2), u.S(14)
	if name == width {
		bar.Y = y + ty + u.S(4)
	}
	const steps = 48
	a := &v.field.axis
	for i := range steps {
		x0 := bar.X + bar.W*float64(i)/steps
		at := a.Min + (a.Max-a.Min)*(float64(i)+0.5)/steps
		u.List.FillRect(draw.Rect{X: x0, Y: bar.Y, W: bar.W/steps + 0.5, H: bar.H}, v.colour(at))
	}
	u.List.StrokeRect(bar, 1, u.T.Edge)
	lh := u.LineHeight(theme.Small)
	marks, decimals := a.Marks()
	for _, m := range marks {
		text := w.Num(m, decimals)
		if sh.change {
			text = w.Signed(m, decimals)
		}
		tw := u.Wide(text, theme.Small, false)
		px := bar.X + bar.W*a.At(m)
		u.List.FillRect(draw.Rect{X: math.Round(px), Y: bar.Y + bar.H, W: 1, H: u.S(3)}, u.T.Edge)
		u.Text(draw.Rect{X: math.Min(math.Max(px-tw/2, x), x+width-tw), Y: bar.Y + bar.H + u.S(3), W: tw, H: lh}, text, theme.Small, false, draw.Start, u.T.Ink)
	}
	return h
}

// legendParts are the width of the name and the place of the scale: side by side, or the scale below.
func (v *View) legendParts(x, width float64) (name float64, bar draw.Rect) {
	u := v.d.U
	most := u.S(420)
	if width < most+u.S(260) {
		return width, draw.Rect{X: x, W: math.Min(width, most)}
	}
	return width - most - u.S(24), draw.Rect{X: x + width - most, W: most}
}

func (v *View) legendHeight(width float64) float64 {
	u, w := v.d.U, v.d.W()
	sh := shows[v.index()]
	name, _ := v.legendParts(0, width)
	text := u.Height(w.T("compare.map."+sh.name), theme.Small, true, name)
	if sh.change {
		text += u.Height(w.T("compare.ends."+sh.name), theme.Small, false, name)
	}
	scale := u.S(20) + u.LineHeight(theme.Small)
	if name == width {
		return text + u.S(4) + scale
	}
	return math.Max(text, scale)
}
