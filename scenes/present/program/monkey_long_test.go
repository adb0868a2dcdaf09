//go:build long

package program_test

import (
	"fmt"
	"os"
	"testing"

	"annuloscope/scenes/present/study"
)

// Twenty monkeys of a thousand events each (some ten minutes); MONKEYS chooses how many.
func TestMonkeysLong(t *testing.T) {
	n := uint64(20)
	fmt.Sscan(os.Getenv("MONKEYS"), &n)
	for seed := monkeySeed() + 100; seed < monkeySeed()+100+n; seed++ {
		newMonkey(t, study.NewSync(quick{study.NewSolver()}), seed).run(t, 1000, seed)
	}
}
