package valve_test

import (
	"testing"

	"annuloscope/assets"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

func load(tb testing.TB, name string, kinds ...repair.Kind) casefile.Case {
	tb.Helper()
	data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
	if err != nil {
		tb.Fatal(err)
	}
	c, err := casefile.Decode(data)
	if err != nil {
		tb.Fatal(err)
	}
	for _, k := range kinds {
		c.Repairs = append(c.Repairs, repair.Must(k))
	}
	return c
}

// A slider on the shortening: one warm solve a step of half a millimetre.
func benchmarkSlider(b *testing.B, o valve.Options, kinds ...repair.Kind) {
	c := load(b, "functional", kinds...)
	s := valve.NewSolver()
	if _, err := s.Solve(c, o); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		c.Repairs[0] = c.Repairs[0].With("shortening_mm", 10+0.5*float64(i%20))
		if _, err := s.Solve(c, o); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWarmBand(b *testing.B) {
	benchmarkSlider(b, valve.Options{Warm: true}, repair.SinusBand)
}
func BenchmarkWarmBandAndClip(b *testing.B) {
	benchmarkSlider(b, valve.Options{Warm: true}, repair.SinusBand, repair.EdgeClip)
}
func BenchmarkWarmWhole(b *testing.B) {
	benchmarkSlider(b, valve.Options{Warm: true, Circulation: true}, repair.SinusBand)
}
func BenchmarkColdBandAndClip(b *testing.B) {
	benchmarkSlider(b, valve.Options{}, repair.SinusBand, repair.EdgeClip)
}

func BenchmarkNewPatient(b *testing.B) {
	c := load(b, "functional", repair.SinusBand)
	for b.Loop() {
		if _, err := valve.Solve(c, valve.Options{Circulation: true}); err != nil {
			b.Fatal(err)
		}
	}
}
