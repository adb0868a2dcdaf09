//go:build long

package ring

import "testing"

// A hundred thousand random cases (about 4 minutes on an idle core). Rare events allowed and reported: one case in 5,000
// without equilibrium, one in 1,000 with two equilibria (warm and cold differ), one step in 500 reversed, and where such
// a second equilibrium lies near, one jump in 10,000 cases and one in 500 onsets of slip.
func TestRandomCasesLong(t *testing.T) {
	c := study(t, 100_000, 7)
	if 5000*c.failed > c.cases || 10_000*c.jumped > c.cases || 500*c.onsetJumps > c.onsets || c.area > 0 ||
		1000*c.apart > c.cases || 500*c.reversed > 3*c.cases {
		t.Error("violations; see the tally")
	}
}
