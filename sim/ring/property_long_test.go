//go:build long

package ring

import "testing"

// A hundred thousand random cases (about 5 minutes on an idle core). Rare events allowed and reported: one case in 5,000
// without equilibrium, one in 1,000 with two equilibria (warm and cold differ), one step in 500 reversed.
func TestRandomCasesLong(t *testing.T) {
	c := study(t, 100_000, 7)
	if 5000*c.failed > c.cases || c.jumped > 0 || c.worstOnset > 1e-4 || 1000*c.area > c.cases || 1000*c.apart > c.cases || 500*c.reversed > 3*c.cases {
		t.Error("violations; see the tally")
	}
}
