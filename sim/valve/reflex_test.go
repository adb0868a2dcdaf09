package valve

import (
	"math"
	"testing"
)

// The search for pressure and resistance finds the fixed point of a made-up valve and circulation whose answer is known,
// from far away and with poor slopes, and the sure search agrees.
func TestCoupleFindsTheFixedPoint(t *testing.T) {
	const p0, f0 = 83.0, 0.87
	passes := 0
	state := func(p, f float64) (float64, float64, error) {
		passes++
		return p0 - 0.4*(p-p0) + 45*math.Tanh(f-f0), f0 - 1.1*(f-f0) + 0.004*(p-p0), nil
	}
	for _, start := range [][2]float64{{83, 0.9}, {60, 1}, {130, 1.6}, {20, 0.5}} {
		c := &circulation{factor: start[1]}
		var s slopes2
		passes = 0
		p, ok, err := couple(start[0], start[1], &s, state)
		if err != nil || !ok || math.Abs(p-p0) > 0.05 {
			t.Errorf("from %v: %v, found %v after %d passes", start, p, ok, passes)
		}
		if q, err := c.settle(start[0], new(slopes2), state); err != nil || math.Abs(q-p0) > 0.05 {
			t.Errorf("settle from %v: %v, %v", start, q, err)
		}
		s = slopes2{{-0.1, 5}, {2, -0.1}}
		if q, err := c.settle(start[0], &s, state); err != nil || math.Abs(q-p0) > 0.05 {
			t.Errorf("settle from %v with poor slopes: %v, %v", start, q, err)
		}
	}
}

// What is measured needs no reflex; a pressure above that asks for less resistance, in effort not.
func TestReflexWants(t *testing.T) {
	c := &circulation{arterial: 90}
	b := baseline{}
	p := &plan{resistance: 1}
	h := &b.patient.Heart
	if f := c.wanted(90, h, p); f != 1 {
		t.Errorf("as measured: %v", f)
	}
	if f := c.wanted(99, h, p); math.Abs(f-0.8) > 1e-12 {
		t.Errorf("a tenth above: %v, want 0.8", f)
	}
	p.resistance = 0.9
	if f := c.wanted(81, h, p); math.Abs(f-1) > 1e-12 {
		t.Errorf("medication that lowers the pressure for good is opposed: %v", f)
	}
	h.Exercise = 1
	if f := c.wanted(120, h, p); f != 1 {
		t.Errorf("in effort: %v", f)
	}
}
