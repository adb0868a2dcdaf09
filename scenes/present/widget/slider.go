package widget

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// SliderSpec describes a slider.
type SliderSpec struct {
	ID, Name        string
	Value, Min, Max float64
	Step, Mark      float64 // Mark: NaN for none
	Decimals        int
	Unit            string
	Dim             bool   // what it belongs to is switched off
	Low, High       string // words at the two ends of the track, may be empty
}

// Slider draws a slider with its name and value over its track and returns its height.
func (u *UI) Slider(x, y, width float64, s SliderSpec) float64 {
	value := u.W.With(s.Value, shown(s.Value, s.Step, s.Decimals), s.Unit)
	typing := u.edit.id == s.ID
	if typing {
		value = u.edit.text + "|"
	}
	vw := math.Max(u.Wide(value, theme.Body, true), u.S(44)) + u.S(8)
	nameW := width - vw - u.S(4)
	lines := u.Height(s.Name, theme.Body, false, nameW)
	line := u.LineHeight(theme.Body)
	trackH := u.S(24)
	h := lines + trackH
	t := draw.Rect{X: x, Y: y + lines, W: width, H: trackH}
	c := u.add(Control{ID: s.ID, Kind: Slider, Rect: draw.Rect{X: x, Y: y, W: width, H: h}, Name: s.Name, Text: value, Value: s.Value,
		Min: s.Min, Max: s.Max, Step: s.Step, Decimals: s.Decimals, Unit: s.Unit, Mark: s.Mark})
	c.track = t
	ink := u.T.Ink
	if s.Dim {
		ink = u.T.Soft
	}
	u.Para(x, y, nameW, s.Name, theme.Body, false, ink)
	vr := draw.Rect{X: x + width - vw, Y: y, W: vw, H: line}
	if typing {
		u.Fill(vr, u.S(3), u.T.Card)
		u.outline(vr, u.S(3), u.S(1.5), u.T.Accent)
	}
	vr.W -= u.S(4)
	u.Text(vr, value, theme.Body, true, draw.End, ink)
	u.track(c, s)
	if s.Low != "" || s.High != "" {
		sh := u.LineHeight(theme.Small)
		half := width/2 - u.S(4)
		u.Para(x, y+h-u.S(2), half, s.Low, theme.Small, false, u.T.Soft)
		if hl := u.Lines(s.High, theme.Small, false, half); len(hl) > 0 {
			for i, l := range hl {
				u.Text(draw.Rect{X: x + width - half, Y: y + h - u.S(2) + float64(i)*sh, W: half, H: sh}, l, theme.Small, false, draw.End, u.T.Soft)
			}
		}
		h += math.Max(u.Height(s.Low, theme.Small, false, half), u.Height(s.High, theme.Small, false, half))
	}
	return h
}

func (u *UI) track(c *Control, s SliderSpec) {
	t := c.track
	knob := u.S(8)
	cy := t.Y + t.H/2
	x0, x1 := t.X+knob, t.X+t.W-knob
	at := func(v float64) float64 {
		f := (v - s.Min) / (s.Max - s.Min)
		return x0 + math.Min(math.Max(f, 0), 1)*(x1-x0)
	}
	bar := draw.Rect{X: x0, Y: cy - u.S(2), W: x1 - x0, H: u.S(4)}
	u.Fill(bar, u.S(2), u.T.Card)
	u.outline(bar, u.S(2), 1, u.T.Edge)
	kx := at(s.Value)
	fill := u.T.Accent
	if s.Dim {
		fill = u.T.Edge
	}
	from := x0
	if s.Min < 0 && s.Max > 0 {
		from = at(0)
	}
	u.List.FillRect(draw.Rect{X: math.Min(from, kx), Y: bar.Y, W: math.Abs(kx - from), H: bar.H}, fill)
	if !math.IsNaN(s.Mark) {
		mx := math.Round(at(s.Mark))
		u.List.FillRect(draw.Rect{X: mx - u.S(1), Y: cy + u.S(4), W: u.S(2), H: u.S(6)}, u.T.Edge)
	}
	if u.focused(c.ID) {
		u.Circle(kx, cy, knob+u.S(4), u.S(2)+1, u.T.Focus)
	}
	if s.Dim {
		u.Disc(kx, cy, knob, u.T.Card)
		u.Circle(kx, cy, knob, u.S(2), fill)
	} else {
		u.Disc(kx, cy, knob, fill)
		if u.Hover == c.ID || u.drag == c.ID {
			u.Disc(kx, cy, u.S(3), u.T.OnAcc)
		}
	}
}

// shown is how many decimals show a value: more than usual when it lies between two steps.
func shown(v, step float64, decimals int) int {
	if step <= 0 {
		return decimals
	}
	if k := v / step; math.Abs(k-math.Round(k)) > 1e-6 {
		return min(decimals+1, 3)
	}
	return decimals
}

// Grip registers a handle that a picture has drawn: a slider without a track. Length is how many logical pixels to the
// right its whole range is.
func (u *UI) Grip(r draw.Rect, track draw.Rect, s SliderSpec) {
	c := u.add(Control{ID: s.ID, Kind: Handle, Rect: r, Name: s.Name, Text: u.W.With(s.Value, shown(s.Value, s.Step, s.Decimals), s.Unit),
		Value: s.Value, Min: s.Min, Max: s.Max, Step: s.Step, Decimals: s.Decimals, Unit: s.Unit, Mark: math.NaN()})
	c.track = track
	u.ring(s.ID, r, u.S(6))
}

// fromX returns the value under the pointer.
func (u *UI) fromX(c *Control, x float64) float64 {
	knob := u.S(8)
	if c.Kind == Handle {
		knob = 0
	}
	x0, x1 := c.track.X+knob, c.track.X+c.track.W-knob
	return c.Min + (x-x0)/(x1-x0)*(c.Max-c.Min)
}

// snap rounds to steps counted from zero, within the range.
func snap(v, step, lo, hi float64) float64 {
	if step > 0 {
		v = math.Round(v/step) * step
		v = math.Round(v*1e9) / 1e9
	}
	return math.Min(math.Max(v, lo), hi)
}
