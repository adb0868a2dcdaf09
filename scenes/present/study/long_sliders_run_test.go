//go:build long

package study_test

import (
	"fmt"
	"os"
	"testing"
)

// A hundred thousand random moves: a hundred seeds of a thousand moves each, side by side (about an hour of one idle core in
// all). MOVES chooses fewer, FROM the first seed.
func TestRandomSlidersLong(t *testing.T) {
	const each = 1000
	n, from := 100_000, uint64(301)
	if text := os.Getenv("MOVES"); text != "" {
		fmt.Sscan(text, &n)
	}
	if text := os.Getenv("FROM"); text != "" {
		fmt.Sscan(text, &from)
	}
	for seed := from; n > 0; seed++ {
		moves := min(n, each)
		n -= moves
		t.Run(fmt.Sprintf("seed %d", seed), func(t *testing.T) {
			t.Parallel()
			check(t, sliders(t, moves, seed))
		})
	}
}
