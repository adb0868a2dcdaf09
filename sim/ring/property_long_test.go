//go:build long

package ring

import "testing"

// A hundred thousand random cases (about 5 minutes on one core).
func TestRandomCasesLong(t *testing.T) {
	c := study(t, 100_000, 7)
	if c.failed > 0 || c.jumped > 0 || c.apart > 0 || 500*c.reversed > 3*c.cases {
		t.Error("violations; see the tally")
	}
}
