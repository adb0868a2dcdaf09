package pace_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
)

func TestPercentiles(t *testing.T) {
	var h pace.Histogram
	for i := 100; i >= 1; i-- {
		h.Add(time.Duration(i) * time.Millisecond)
	}
	s := h.Summary()
	// Nearest rank of 1…100: the 50th, 95th, 99th value.
	for _, c := range [][2]float64{{s.P50, 50}, {s.P95, 95}, {s.P99, 99}, {s.Longest, 100}} {
		if math.Abs(c[0]-c[1]) > 1e-3 {
			t.Errorf("%v, want %v", c[0], c[1])
		}
	}
	n := 0
	for _, b := range s.Buckets {
		n += b
	}
	if n != 100 || s.Buckets[0] != 2 || !strings.Contains(s.String(), "up to 66 ms") {
		t.Errorf("buckets %v\n%s", s.Buckets, s)
	}
	for range 5000 {
		h.Add(time.Millisecond)
	}
	if s := h.Summary(); s.Count != 5100 || s.Longest > 1.001 {
		t.Errorf("after 5000 more: count %d, longest %v", s.Count, s.Longest)
	}
	if n := testing.AllocsPerRun(10, func() { h.Add(time.Millisecond) }); n > 0 {
		t.Errorf("Add allocates %v times", n)
	}
}

// slow answers a press at once and settles three ticks later; moves change nothing.
type slow struct {
	dirty bool
	left  int
}

func (s *slow) Handle(e input.Event) {
	if e.Kind == input.Press {
		s.dirty, s.left = true, 3
	}
}

func (s *slow) Tick(float64) bool {
	d := s.dirty
	s.dirty = false
	if s.left > 0 {
		time.Sleep(2 * time.Millisecond)
		s.left--
		d = d || s.left <= 1
	}
	return d
}

func (s *slow) Pending() bool    { return s.left > 0 }
func (s *slow) Explaining() bool { return s.left == 1 }
func (s *slow) Paint(l *draw.List, w, h float64) {
	l.Reset(w, h, draw.Color{A: 255})
}

func TestDriveMeasuresFirstAndSettled(t *testing.T) {
	times := pace.Drive(&slow{}, 64, 64, 1, time.Second, func(i int) []input.Event {
		switch {
		case i >= 10:
			return nil
		case i%2 == 0:
			return []input.Event{{Kind: input.Press}}
		}
		return []input.Event{{Kind: input.Move}}
	})
	f, n, s := times.First.Summary(), times.Numbers.Summary(), times.Settled.Summary()
	if f.Count != 5 || n.Count != 5 || s.Count != 5 {
		t.Errorf("%d first pictures, %d with the numbers and %d settled", f.Count, n.Count, s.Count)
	}
	if n.P50 < 4 || n.P50 >= s.P50 {
		t.Errorf("numbers %v ms, settled %v ms; the last tick of 2 ms lies between", n.P50, s.P50)
	}
	if s.P50 < 6 || f.P50 >= s.P50 {
		t.Errorf("first %v ms, settled %v ms; three ticks of 2 ms lie between", f.P50, s.P50)
	}
}
