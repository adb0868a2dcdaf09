//go:build long

package study_test

import (
	"fmt"
	"os"
	"testing"
)

// A hundred thousand random moves (about 40 minutes on an idle core); MOVES chooses fewer: 20,500 were made when this was
// written.
func TestRandomSlidersLong(t *testing.T) {
	n := 100_000
	if text := os.Getenv("MOVES"); text != "" {
		fmt.Sscan(text, &n)
	}
	check(t, sliders(t, n, 2))
}
