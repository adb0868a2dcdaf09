package chart_test

import (
	"math"
	"testing"

	"annuloscope/scenes/present/chart"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
)

func TestAxisHoldsItsValuesWithRoundTicks(t *testing.T) {
	for _, v := range [][]float64{{0, 1}, {28.3, 36}, {0.02, 0.32}, {-3, 4}, {5, 5}, {math.NaN(), 2}, nil, {1e-4, 3e-4}, {90, 140}} {
		var a chart.Axis
		a.Span(v)
		for _, x := range v {
			if !math.IsNaN(x) && (x < a.Min-1e-12 || x > a.Max+1e-12) {
				t.Errorf("%v: range %g to %g", v, a.Min, a.Max)
			}
		}
		marks, decimals := a.Marks()
		if len(marks) < 2 || len(marks) > 7 {
			t.Errorf("%v: ticks %v", v, marks)
		}
		for _, m := range marks {
			p := math.Pow(10, float64(decimals))
			if math.Abs(m*p-math.Round(m*p)) > 1e-6 {
				t.Errorf("%v: tick %g is not shown exactly with %d decimals", v, m, decimals)
			}
		}
	}
}

// Found by the monkey in the page: an axis from 6 to 14 with steps of 5 had one tick, and the chart divided by zero.
func TestEveryRangeHasTwoTicksAndCanBeDrawn(t *testing.T) {
	th, _ := theme.Named("light")
	u := widget.New(th, words.For(words.English))
	for _, ticks := range []int{0, 2, 3, 4, 5} {
		for lo := -20.0; lo < 20; lo += 0.7 {
			for wide := 0.1; wide < 30; wide *= 1.3 {
				y := chart.Axis{Ticks: ticks}
				y.Span([]float64{lo, lo + wide})
				if marks, _ := y.Marks(); len(marks) < 2 || len(marks) > 9 {
					t.Fatalf("%g to %g, at most %d ticks: %v", y.Min, y.Max, ticks, marks)
				}
				l := new(draw.List)
				u.Begin(l, 400, 300)
				chart.Begin(u, draw.Rect{X: 10, Y: 10, W: 300, H: 200}, "", chart.Axis{Max: 1}, y)
				u.End()
			}
		}
	}
	l := new(draw.List)
	u.Begin(l, 400, 300)
	chart.Begin(u, draw.Rect{X: 10, Y: 10, W: 300, H: 200}, "", chart.Axis{Max: 1}, chart.Axis{Min: 6, Max: 14, Ticks: 3})
	u.End()
}

func TestReversedAxis(t *testing.T) {
	a := chart.Axis{Min: 0, Max: 100, Reverse: true}
	if a.At(0) != 1 || a.At(100) != 0 {
		t.Error("a reversed axis has its least value on the right")
	}
}

func TestDataLandInsideThePlotAndNamesApart(t *testing.T) {
	th, _ := theme.Named("light")
	u := widget.New(th, words.For(words.English))
	u.Record = true
	l := new(draw.List)
	u.Begin(l, 400, 300)
	var y chart.Axis
	data := []float64{0, 50, 100}
	y.Span(data)
	c := chart.Begin(u, draw.Rect{X: 10, Y: 10, W: 300, H: 200}, "Pressure", chart.Axis{Min: 0, Max: 2}, y, "one", "two")
	c.Lines(chart.Series{Name: "one", X: []float64{0, 1, 2}, Y: data}, chart.Series{Name: "two", X: []float64{0, 1, 2}, Y: []float64{0, 60, 99}})
	if p := c.At(0, 0); p.X != c.Plot.X || p.Y != c.Plot.Y+c.Plot.H {
		t.Errorf("origin at %v, plot %v", p, c.Plot)
	}
	for i, a := range u.Cells {
		for _, b := range u.Cells[i+1:] {
			if a.Box.X < b.Box.X+b.Box.W && b.Box.X < a.Box.X+a.Box.W && a.Box.Y+1 < b.Box.Y+b.Box.H && b.Box.Y+1 < a.Box.Y+a.Box.H {
				t.Errorf("%q and %q overlap", a.Text, b.Text)
			}
		}
	}
}

func TestCounts(t *testing.T) {
	_, n := chart.Counts([]float64{0, 0.1, 0.9, 1, 2, -1, math.NaN()}, 0, 1, 2)
	if n[0] != 2 || n[1] != 2 {
		t.Errorf("counts %v", n)
	}
}
