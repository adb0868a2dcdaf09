package leaflet

import (
	"fmt"
	"testing"
)

// Warm steps of 1 mm of septal-lateral diameter, up and down between 28 and 34 mm, and the measuring after each;
// cold solves of closed, open and bonded states.
func Benchmark(b *testing.B) {
	for _, m := range [][2]int{{DragColumns, DragRows}, {ShownColumns, ShownRows}} {
		name := fmt.Sprintf("%dx%d/", m[0], m[1])
		b.Run(name+"warm", func(b *testing.B) {
			s := New(m[0], m[1])
			var ins []Input
			for _, sl := range []float64{28, 29, 30, 31, 32, 33, 34, 33, 32, 31, 30, 29} {
				ins = append(ins, standard(sl))
			}
			for _, in := range ins {
				s.Solve(in)
			}
			k, iterations := 0, 0
			for b.Loop() {
				if st, _ := s.Solve(ins[k%len(ins)]); st != Converged {
					b.Fatal(st)
				}
				iterations += s.iterations
				k++
			}
			b.ReportMetric(float64(iterations)/float64(k), "iterations")
		})
		for _, c := range []struct {
			name string
			in   Input
		}{{"closed", standard(30)}, {"open", opened(28, 4)}, {"bonded", opened(28, 4, Bond{S: 0, WidthMM: 5, ReachMM: 6, Hold: 1})}} {
			b.Run(name+"cold-"+c.name, func(b *testing.B) {
				s := New(m[0], m[1])
				for b.Loop() {
					s.Reset()
					if st, _ := s.Solve(c.in); st != Converged {
						b.Fatal(st)
					}
				}
				b.ReportMetric(float64(s.iterations), "iterations")
			})
		}
		b.Run(name+"result", func(b *testing.B) {
			s := New(m[0], m[1])
			s.Solve(standard(30))
			for b.Loop() {
				s.Result()
			}
		})
	}
}
