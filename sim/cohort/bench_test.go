package cohort

import (
	"testing"

	"annuloscope/sim/repair"
)

// One patient before and after one repair on one core; issue 6 asks for 50 a second and core.
func BenchmarkMember(b *testing.B) {
	w := NewWorker(Plan{Seed: 1, Mix: EqualMix(), Repairs: []repair.Step{repair.Must(repair.SinusBand)}})
	for i := 0; b.Loop(); i++ {
		if _, err := w.Member(i); err != nil {
			b.Fatal(err)
		}
	}
}
