package casefile

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"testing"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
)

// The hash is that of the whole case as it is written, with every kind of repair, odd numbers and none.
func TestHashIsOfTheCaseAsWritten(t *testing.T) {
	c := Case{Name: "words do not count", Patient: anatomy.Normal()}
	check := func() {
		t.Helper()
		bare := c
		bare.Name = ""
		sum := sha256.Sum256(encode(bare, true))
		if got, want := Hash(c), hex.EncodeToString(sum[:]); got != want {
			t.Errorf("%d repairs: %s, written %s\n%s", len(c.Repairs), got, want, encode(bare, true))
		}
	}
	check()
	for i, spec := range repair.Specs() {
		s := repair.Must(spec.Kind)
		for k := range s.Values {
			s.Values[k] += []float64{0, 1e-9, 1e21, -0.5, math.Pi}[(i+k)%5]
		}
		c.Repairs = append(c.Repairs, s)
		check()
	}
	before := Hash(c)
	c.Patient.Jet.Position = math.Copysign(0, -1)
	if Hash(c) != before {
		t.Error("zero from below is another case")
	}
	c.Patient.Jet.Position = 0.01
	if Hash(c) == before {
		t.Error("another patient has the same hash")
	}
}
