package pace_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present"
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

// slow answers a press with a picture at once, the geometry after two more ticks, everything after four; moves change nothing.
type slow struct {
	dirty bool
	left  int
}

func (s *slow) Handle(e input.Event) {
	if e.Kind == input.Press {
		s.dirty, s.left = true, 4
	}
}

func (s *slow) Tick(float64) bool {
	d := s.dirty
	s.dirty = false
	if s.left > 0 {
		time.Sleep(2 * time.Millisecond)
		s.left--
		d = d || s.left%2 == 0
	}
	return d
}

func (s *slow) Pending() bool { return s.left > 0 }
func (s *slow) Stage() present.Stage {
	switch {
	case s.left > 2:
		return present.Asked
	case s.left > 0:
		return present.Geometry
	}
	return present.Causes
}
func (s *slow) Paint(l *draw.List, w, h float64) {
	l.Reset(w, h, draw.Color{A: 255})
}

// A stage is counted at the first picture that shows it, with those that no picture showed by themselves; one that never
// comes is not counted.
func TestDriveMeasuresEachStage(t *testing.T) {
	times := pace.Drive(&slow{}, 64, 64, 1, time.Second, func(i int) []input.Event {
		switch {
		case i >= 10:
			return nil
		case i%2 == 0:
			return []input.Event{{Kind: input.Press}}
		}
		return []input.Event{{Kind: input.Move}}
	})
	s := times.Summary()
	for name, c := range map[string]struct{ got, want int }{"first": {s.First.Count, 5}, "geometry": {s.Geometry.Count, 5}, "numbers": {s.Numbers.Count, 5},
		"causes": {s.Causes.Count, 5}, "settled": {s.Settled.Count, 0}} {
		if c.got != c.want {
			t.Errorf("%s: %d pictures, want %d", name, c.got, c.want)
		}
	}
	// Each tick takes 2 ms: the first picture comes after one, the geometry after two, the rest after four.
	if s.First.P50 < 2 || s.Geometry.P50 < 4 || s.Causes.P50 < 8 || s.First.P50 >= s.Geometry.P50 || s.Geometry.P50 >= s.Causes.P50 {
		t.Errorf("first %v ms, geometry %v ms, causes %v ms", s.First.P50, s.Geometry.P50, s.Causes.P50)
	}
	if s.Numbers.P50 != s.Causes.P50 {
		t.Errorf("numbers %v ms, causes %v ms; they came in one picture", s.Numbers.P50, s.Causes.P50)
	}
}

// Where the patience ends, what has not come is not counted.
func TestDriveEndsWithThePatience(t *testing.T) {
	times := pace.Drive(&slow{}, 64, 64, 1, 0, func(i int) []input.Event {
		if i > 0 {
			return nil
		}
		return []input.Event{{Kind: input.Press}}
	})
	if s := times.Summary(); s.First.Count != 1 || s.Geometry.Count != 0 || s.Causes.Count != 0 {
		t.Errorf("first %d, geometry %d, causes %d pictures; want 1, 0, 0", s.First.Count, s.Geometry.Count, s.Causes.Count)
	}
}
