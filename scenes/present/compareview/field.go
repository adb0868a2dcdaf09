package compareview

import (
	"math"

	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"
)

// show is what the pictures can show: the valve, or a map: of a length along the line, or in three dimensions of a field
// of the leaflets.
type show struct {
	name   string                       // study.View.Map
	of     func(*valve.Station) float64 // nil: none along the line
	field  relief.Field                 // empty: none in three dimensions
	change bool                         // plan minus untreated
}

func contact(s *valve.Station) float64 { return s.ContactMM }
func gap(s *valve.Station) float64     { return s.GapMM }

var shows = [...]show{{}, {"contact", contact, relief.ContactField, false}, {"gap", gap, relief.GapField, false}, {"tension", nil, relief.TensionField, false},
	{"contact.change", contact, relief.ContactField, true}, {"gap.change", gap, relief.GapField, true}, {"tension.change", nil, relief.TensionField, true}}

// choices are the places in shows that the engine chosen has.
func (v *View) choices() (out []int) {
	for i, s := range shows {
		if i == 0 || v.c.Shell() || s.of != nil {
			out = append(out, i)
		}
	}
	return out
}

// shown is the map in use; the valve where the engine at hand has no such map.
func (v *View) shown() show {
	for _, s := range shows {
		if s.name == v.d.V.Map && (v.deep() || s.of != nil) {
			return s
		}
	}
	return shows[0]
}

// deep tells whether the columns show the leaflets in three dimensions.
func (v *View) deep() bool {
	return len(v.c.Columns) > 0 && v.c.Columns[0].Report.Scene.After.Shell != nil
}

// key is the map's name among the words.
func (v *View) key() string {
	if v.deep() {
		return "shell." + v.shown().name
	}
	return v.shown().name
}

// field is a map over all columns: one value per station or point, one range for all.
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
	sh := v.shown()
	v.field = field{values: make([][]float64, len(v.c.Columns)), axis: chart.Axis{Ticks: 4}}
	switch {
	case sh.name == "":
	case v.deep():
		v.surfaces(sh)
	default:
		v.lines(sh)
	}
}

// lines is a map along the line, its range that of the values.
func (v *View) lines(sh show) {
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
	v.span(sh, most)
	for i, values := range v.field.values {
		if values != nil {
			v.models[i].Tint(func(k int) draw.Color { return v.colour(values[k]) })
		}
	}
}

// surfaces is a map of the whole leaflets, its range the field's own, so that it is the same for every patient; a change
// is taken point by point of the same tissue, over half of it.
func (v *View) surfaces(sh show) {
	base := &v.models[0].Shapes.Shell.Closed
	_, most, _ := sh.field.Range()
	if sh.change {
		most /= 2
	}
	v.span(sh, most)
	for i := range v.c.Columns {
		shell := v.models[i].Shapes.Shell
		if shell == nil || len(shell.Closed.Points) != len(base.Points) {
			continue
		}
		values := make([]float64, len(base.Points))
		for k := range values {
			values[k] = sh.field.At(&shell.Closed, k)
			if sh.change {
				values[k] -= sh.field.At(base, k)
			}
		}
		v.field.values[i] = values
		v.models[i].TintPoints(func(k int) draw.Color { return v.colour(values[k]) })
	}
}

func (v *View) span(sh show, most float64) {
	if sh.change {
		v.field.axis.Span([]float64{-most, most})
	} else {
		v.field.axis.Span([]float64{0, most})
	}
}

// colour is that of a value on the scale in use.
func (v *View) colour(x float64) draw.Color {
	if v.shown().change {
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
	sh := v.shown()
	h := v.legendHeight(width)
	name, bar := v.legendParts(x, width)
	ty := u.Para(x, y, name, w.T("compare.map."+v.key()), theme.Small, true, u.T.Ink)
	if sh.change {
		ty += u.Para(x, y+ty, name, w.T("compare.ends."+v.key()), theme.Small, false, u.T.Soft)
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
		if v.deep() && math.Abs(m) == a.Max { // beyond the ends the colour stays
			text = map[bool]string{true: "≥ ", false: "≤ "}[m > 0] + text
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
	sh := v.shown()
	name, _ := v.legendParts(0, width)
	text := u.Height(w.T("compare.map."+v.key()), theme.Small, true, name)
	if sh.change {
		text += u.Height(w.T("compare.ends."+v.key()), theme.Small, false, name)
	}
	scale := u.S(20) + u.LineHeight(theme.Small)
	if name == width {
		return text + u.S(4) + scale
	}
	return math.Max(text, scale)
}
