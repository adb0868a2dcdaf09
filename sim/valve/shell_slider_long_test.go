//go:build long && !race

package valve

import (
	"testing"

	"annuloscope/sim/repair"
)

// Sliders of band, clip and cord on the patients without torn chords. A flail is left out: it has two states of rest,
// everted and fallen shut (MODEL.md).
func TestShellSlidersLong(t *testing.T) {
	slide(t, "functional", repair.SinusBand, "shortening_mm", 0, 2, 11)
	slide(t, "functional", repair.PosteriorBand, "downsizing_pct", 4, 2, 5)
	slide(t, "functional", repair.EdgeClip, "position", -0.1, 0.025, 9)
	slide(t, "normal", repair.SinusBand, "shortening_mm", 8, 1, 5)
	slide(t, "deep-artery", repair.SinusBand, "shortening_mm", 8, 2, 4)
	slide(t, "high-sinus", repair.SinusBand, "shortening_mm", 8, 2, 4)
}
