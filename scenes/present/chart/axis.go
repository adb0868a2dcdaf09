package chart

import "math"

// Axis is one axis: its name with the unit, and its range.
type Axis struct {
	Name     string
	Min, Max float64
	Reverse  bool // larger values to the left
	Ticks    int  // most ticks; 0: 4
	Zero     bool // always show zero
}

const flat = 0.1 // least range over the largest value; chosen

// Span makes the range hold the values given, and from zero when that is near.
func (a *Axis) Span(values ...[]float64) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, vs := range values {
		for _, v := range vs {
			if !math.IsNaN(v) && !math.IsInf(v, 0) {
				lo, hi = math.Min(lo, v), math.Max(hi, v)
			}
		}
	}
	if lo > hi {
		lo, hi = 0, 1
	}
	if lo > 0 && (lo < 0.4*hi || a.Zero) {
		lo = 0
	}
	if m := math.Max(math.Abs(lo), math.Abs(hi)); hi-lo < flat*m { // a flat curve looks flat
		lo, hi = lo-flat*m/2, hi+flat*m/2
	}
	if hi-lo < 1e-9 {
		hi = lo + math.Max(math.Abs(lo)*0.1, 0.1)
	}
	step := step(lo, hi, a.most())
	a.Min, a.Max = math.Floor(lo/step+1e-9)*step, math.Ceil(hi/step-1e-9)*step
}

func (a *Axis) most() int {
	if a.Ticks == 0 {
		return 4
	}
	return a.Ticks
}

// step is the least round step that makes at most n of lo to hi.
func step(lo, hi float64, n int) float64 {
	raw := (hi - lo) / float64(n)
	p := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*p >= raw-1e-12 {
			return m * p
		}
	}
	return 10 * p
}

// Marks returns the ticks and the decimals they need: at least two, in steps half as wide and more where the first give
// only one (6 to 14 in steps of 5).
func (a *Axis) Marks() (at []float64, decimals int) {
	for n := a.most(); ; n *= 2 {
		if at, decimals = a.marks(step(a.Min, a.Max, n)); len(at) >= 2 || n > 4*a.most() {
			return at, decimals
		}
	}
}

func (a *Axis) marks(step float64) (at []float64, decimals int) {
	decimals = max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	for k := math.Ceil(a.Min/step - 1e-9); k*step <= a.Max+1e-9*step; k++ {
		at = append(at, k*step)
	}
	return at, decimals
}

// At maps a value to 0…1 along the axis.
func (a *Axis) At(v float64) float64 {
	t := (v - a.Min) / (a.Max - a.Min)
	if a.Reverse {
		t = 1 - t
	}
	return t
}
