package theme

import (
	"math"

	"annuloscope/scenes/present/draw"
)

// Luminance is the relative luminance of an opaque colour (WCAG 2.2, "relative luminance"), 0 to 1.
func Luminance(c draw.Color) float64 {
	lin := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

// Contrast is the contrast ratio of two opaque colours, 1 to 21 (WCAG 2.2, "contrast ratio").
func Contrast(a, b draw.Color) float64 {
	x, y := Luminance(a), Luminance(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

// cividis holds the map at nine equal steps (Nuñez, Anderton and Renslow 2018, doi 10.1371/journal.pone.0199239; values
// from memory, within a few units of the published table; a test checks that luminance rises evenly).
var cividis = [9]draw.Color{rgb(0x00224E), rgb(0x123570), rgb(0x3B496C), rgb(0x575D6D), rgb(0x707173), rgb(0x8A8678),
	rgb(0xA59C74), rgb(0xC3B369), rgb(0xE1CC55)}

// Cividis maps 0…1 to the colours of fields; values outside are shown as the nearest end.
func Cividis(t float64) draw.Color {
	if !(t > 0) {
		return cividis[0]
	}
	if t >= 1 {
		return cividis[len(cividis)-1]
	}
	x := t * float64(len(cividis)-1)
	i := int(x)
	return Mix(cividis[i], cividis[i+1], x-float64(i))
}
