package beat

import (
	"testing"

	"annuloscope/sim/units"
)

// leaks cycles through small changes, as a slider gives.
var leaks = [...]units.EffectiveCM2{0.30, 0.32, 0.35, 0.33}

func BenchmarkCold(b *testing.B) {
	p := Resting().Leaking(0.3)
	for b.Loop() {
		w := NewWorkspace()
		if r, err := w.Solve(&p); err != nil || r.Status != Converged {
			b.Fatal(err)
		}
	}
}

func benchmarkWarm(b *testing.B, p Params) {
	w := NewWorkspace()
	w.Solve(&p)
	b.ReportAllocs()
	beats := 0
	for i := 0; b.Loop(); i++ {
		p.Leak.AreaCM2 = leaks[i%len(leaks)]
		r, err := w.Solve(&p)
		if err != nil || r.Status != Converged {
			b.Fatal(err)
		}
		beats += r.Beats
	}
	b.ReportMetric(float64(beats)/float64(b.N), "beats/op")
}

func BenchmarkWarmConstantLeak(b *testing.B) { benchmarkWarm(b, Resting().Leaking(0.3)) }

func BenchmarkWarmCourse(b *testing.B) {
	p := Resting().Leaking(0.3)
	p.Leak.Course = Course{1.3, 0.9, 0.7, 0.9, 1.3}
	benchmarkWarm(b, p)
}

func BenchmarkWarmCoupledLeak(b *testing.B) {
	p := Resting().Leaking(0.3)
	p.Leak.Course = Course{1.3, 0.9, 0.7, 0.9, 1.3}
	p.Leak.PressureExponent, p.Leak.PressureReferenceMMHg = -0.2, 100
	p.Leak.VolumeSlope, p.Leak.VolumeReferenceML = 0.5, 100
	benchmarkWarm(b, p)
}
