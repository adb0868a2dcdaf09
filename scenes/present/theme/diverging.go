package theme

import (
	"math"

	"annuloscope/scenes/present/draw"
)

// Ends and middle of the map for signed values: blue for less, brown for more, so that people who see red and green alike
// can tell them apart. Chosen; a test checks that luminance falls evenly from the middle to both ends.
var (
	divergingLess   = rgb(0x1F5A99)
	divergingMiddle = rgb(0xF4F1EA)
	divergingMore   = rgb(0x8F4408)
)

// Diverging maps −1…1 to the colours of changes, the middle at 0; values outside are shown as the nearest end, NaN as the
// middle.
func Diverging(t float64) draw.Color {
	switch {
	case t < 0:
		return Mix(divergingMiddle, divergingLess, math.Min(-t, 1))
	case t > 0:
		return Mix(divergingMiddle, divergingMore, math.Min(t, 1))
	}
	return divergingMiddle
}
