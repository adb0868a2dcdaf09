package closure

import "testing"

func benchSolve(b *testing.B, cold, interval bool) {
	f, _ := Fit(testInput(37, 0), functional)
	ins := []*Input{testInput(34, 0), testInput(34.3, 0)}
	w := Workspace{Interval: interval}
	var r Result
	clips := clipAt(0)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if cold {
			w.Reset()
		}
		w.Solve(f, ins[i%2], clips, &r)
	}
}

// Two solves each: without and with the clip.
func BenchmarkWarm(b *testing.B)     { benchSolve(b, false, false) }
func BenchmarkCold(b *testing.B)     { benchSolve(b, true, false) }
func BenchmarkInterval(b *testing.B) { benchSolve(b, false, true) }

func BenchmarkFit(b *testing.B) {
	in := testInput(37, 0)
	for b.Loop() {
		Fit(in, functional)
	}
}

func BenchmarkCourse(b *testing.B) {
	in := testInput(37, 0)
	f, _ := Fit(in, functional)
	var w Workspace
	var c Course
	phases := TetheredPhases()
	for b.Loop() {
		w.Course(f, in, nil, nil, phases, &c)
	}
}
