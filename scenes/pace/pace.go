// Package pace measures how long a picture takes after an input, for the window, the page and the bench command.
package pace

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// kept: how many of the last times are kept. Chosen: a minute of dragging at 60 pictures a second.
const kept = 4096

// Histogram collects times. The zero value is ready. It is not safe for concurrent use.
type Histogram struct {
	times []float32 // ms
	next  int
	count int
}

// Add notes one time.
func (h *Histogram) Add(d time.Duration) {
	ms := float32(d.Seconds() * 1e3)
	if len(h.times) < kept {
		if h.times == nil {
			h.times = make([]float32, 0, kept)
		}
		h.times = append(h.times, ms)
	} else {
		h.times[h.next] = ms
		h.next = (h.next + 1) % kept
	}
	h.count++
}

// Summary is what a histogram says, in milliseconds.
type Summary struct {
	Count   int       `json:"count"`
	P50     float64   `json:"p50_ms"`
	P95     float64   `json:"p95_ms"`
	P99     float64   `json:"p99_ms"`
	Longest float64   `json:"longest_ms"`
	Upper   []float64 `json:"bucket_upper_ms"` // of the buckets; the last is open above
	Buckets []int     `json:"bucket_count"`
}

// bounds of the buckets, ms: one and two 60 Hz frames (16.7, 33.3) and the page's 66 among them.
var bounds = []float64{2, 4, 8, 16.7, 25, 33.3, 50, 66, 100, 200, 500}

// Summary sorts the last times kept. Percentiles are nearest-rank: the smallest time that at least so many per cent do
// not exceed. All are zero without times.
func (h *Histogram) Summary() Summary {
	s := Summary{Count: h.count, Upper: bounds, Buckets: make([]int, len(bounds)+1)}
	if len(h.times) == 0 {
		return s
	}
	v := slices.Clone(h.times)
	slices.Sort(v)
	at := func(q float64) float64 {
		return float64(v[max(0, int(math.Ceil(q*float64(len(v))))-1)])
	}
	s.P50, s.P95, s.P99, s.Longest = at(0.50), at(0.95), at(0.99), float64(v[len(v)-1])
	for _, t := range v {
		i, _ := slices.BinarySearch(bounds, float64(t))
		s.Buckets[i]++
	}
	return s
}

// String draws the histogram in text.
func (s Summary) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d pictures: p50 %.1f, p95 %.1f, p99 %.1f, longest %.1f ms\n", s.Count, s.P50, s.P95, s.P99, s.Longest)
	most := 1
	for _, n := range s.Buckets {
		most = max(most, n)
	}
	for i, n := range s.Buckets {
		if n == 0 {
			continue
		}
		name := fmt.Sprintf("over %g ms", bounds[len(bounds)-1])
		if i < len(s.Upper) {
			name = fmt.Sprintf("up to %g ms", s.Upper[i])
		}
		fmt.Fprintf(&b, "%14s %6d %s\n", name, n, strings.Repeat("█", (40*n+most-1)/most))
	}
	return b.String()
}
