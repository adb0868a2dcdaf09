package command

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"time"
)

// Where a run was measured.
const (
	whereAlone  = "own time, no window"
	whereWindow = "in the window, up to the submitted picture"
	wherePage   = "in the page (the first picture shows the new geometry)"
)

// slower is the ratio to the carried run from which a warning is given. Issue 7: 1.5.
const slower = 1.5

// carriedRuns are runs of this command on an idle machine, as --json writes them, one for each place.
//
//go:embed bench_baseline.json
var carriedRuns []byte

// benchRun is a run as --json writes it.
type benchRun struct {
	Notice     string     `json:"notice"`
	Where      string     `json:"where"`
	Engine     string     `json:"engine"`
	System     string     `json:"system"`
	Processors int        `json:"processors"`
	Yardstick  float64    `json:"yardstick_ms"` // what the processor took for a fixed piece of work between the sizes
	Sizes      []benchRow `json:"sizes"`
}

// yardstick is how long this processor takes for a fixed piece of work (sums of products, and memory written), so that
// runs on other or busier machines can be compared. Ratios to it are.
type yardstick struct{ took []float64 }

// measure notes the work's time a few times.
func (y *yardstick) measure() {
	const n = 512
	a, b := make([]float64, n*n), make([]float64, n*n)
	for i := range a {
		a[i] = float64(i%7) + 0.5
	}
	for range 5 {
		at := time.Now()
		for i := range n {
			sum := 0.0
			for j, v := range a[i*n : (i+1)*n] {
				sum += v * math.Sqrt(a[j*n+i]+sum)
				b[j*n+i] = sum
			}
		}
		copy(a[1:], b[:1])
		y.took = append(y.took, time.Since(at).Seconds()*1e3)
	}
}

// ms is the median.
func (y *yardstick) ms() float64 {
	v := slices.Clone(y.took)
	slices.Sort(v)
	return v[len(v)/2]
}

// slowdowns words what took more than slower times as long as in the carried run at the same place, size and engine, each
// in units of its own yardstick; medians. Nothing where there is no such run.
func slowdowns(now benchRun, carried []benchRun) []string {
	var out []string
	for _, was := range carried {
		if was.Where != now.Where || was.Engine != now.Engine || !(was.Yardstick > 0) || !(now.Yardstick > 0) {
			continue
		}
		for _, r := range now.Sizes {
			for _, q := range was.Sizes {
				if q.Width != r.Width || q.Height != r.Height {
					continue
				}
				for _, part := range []struct {
					what     string
					now, was float64
				}{{"the control", r.First.P50, q.First.P50}, {"the geometry", r.Quick.P50, q.Quick.P50}, {"the circulation", r.Numbers.P50, q.Numbers.P50}, {"the causes", r.Settled.P50, q.Settled.P50}} {
					ratio := part.now / now.Yardstick / (part.was / was.Yardstick)
					if part.now > 0 && part.was > 0 && ratio > slower {
						out = append(out, fmt.Sprintf("%s at %d × %d: %.1f ms, %.1f times what the carried run took on its machine (%.1f ms)", part.what, r.Width, r.Height, part.now, ratio, part.was))
					}
				}
			}
		}
	}
	return out
}

// warnSlow writes a warning line for each slowdown on standard error. It is never a failure: a busy machine is slow, too.
func warnSlow(s *Streams, now benchRun) error {
	var carried []benchRun
	if err := json.Unmarshal(carriedRuns, &carried); err != nil {
		return failWith(Failed, "the carried runs cannot be read: %w", err)
	}
	for _, line := range slowdowns(now, carried) {
		fmt.Fprintln(s.Err, "annuloscope: warning: slower than carried: "+line)
	}
	return nil
}
