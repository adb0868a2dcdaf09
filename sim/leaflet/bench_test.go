package leaflet

import (
	"fmt"
	"testing"
)

// Warm steps of 1 mm of septal-lateral diameter, up and down between 28 and 34 mm, and the measuring after each;
// small ones of 0.2 mm, as a slider makes them, to rest and near enough for a picture; cold solves of closed, open and
// bonded states. In the page's machine:
//
//	GOOS=js GOARCH=wasm go test -exec "$(go env GOROOT)/lib/wasm/go_js_wasm_exec" -run '^$' -bench . ./sim/leaflet
func Benchmark(b *testing.B) {
	for _, m := range [][2]int{{DragColumns, DragRows}, {ShownColumns, ShownRows}} {
		name := fmt.Sprintf("%dx%d/", m[0], m[1])
		for _, w := range []struct {
			name string
			step float64
			near bool
		}{{"warm", 1, false}, {"slide", 0.2, false}, {"drag", 0.2, true}} {
			b.Run(name+w.name, func(b *testing.B) {
				s := New(m[0], m[1])
				var ins []Input
				n := int(6/w.step + 0.5)
				for i := range 2 * n {
					ins = append(ins, standard(28+w.step*float64(min(i, 2*n-i))))
				}
				s.Solve(ins[len(ins)-1])
				k, iterations := 0, 0
				from := processorTime()
				for b.Loop() {
					if w.near {
						s.Set(ins[k%len(ins)])
						if !s.Near(100) {
							b.Fatal(s.status)
						}
					} else if st, _ := s.Solve(ins[k%len(ins)]); st != Converged {
						b.Fatal(st)
					}
					iterations += s.iterations
					k++
				}
				reportCPU(b, k, from)
				b.ReportMetric(float64(iterations)/float64(k), "iterations")
			})
		}
		for _, c := range []struct {
			name string
			in   Input
		}{{"closed", standard(30)}, {"open", opened(28, 4)}, {"bonded", opened(28, 4, Bond{S: 0, WidthMM: 5, ReachMM: 6, Hold: 1})}} {
			b.Run(name+"cold-"+c.name, func(b *testing.B) {
				s := New(m[0], m[1])
				k := 0
				from := processorTime()
				for b.Loop() {
					s.Reset()
					if st, _ := s.Solve(c.in); st != Converged {
						b.Fatal(st)
					}
					k++
				}
				reportCPU(b, k, from)
				b.ReportMetric(float64(s.iterations), "iterations")
			})
		}
		b.Run(name+"result", func(b *testing.B) {
			s := New(m[0], m[1])
			s.Solve(standard(30))
			k := 0
			from := processorTime()
			for b.Loop() {
				s.Result()
				k++
			}
			reportCPU(b, k, from)
		})
	}
}
