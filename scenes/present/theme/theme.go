package theme

import "annuloscope/scenes/present/draw"

// Theme holds one colour for each role.
type Theme struct {
	Name string
	Dark bool

	Paper draw.Color // behind everything
	Card  draw.Color // panels
	Tint  draw.Color // the sentence on top, hovered rows, the lit part of a choice
	Rule  draw.Color // hairlines that only separate; carries no meaning
	Edge  draw.Color // outlines of controls

	Ink    draw.Color // text
	Soft   draw.Color // secondary text
	Accent draw.Color // filled controls, slider fills, links
	OnAcc  draw.Color // text on Accent
	Focus  draw.Color // the ring round what has the keyboard
	Better draw.Color // always with ▲ or ▼ and a word
	Worse  draw.Color
	Warn   draw.Color

	Annulus   draw.Color
	Anterior  draw.Color
	Posterior draw.Color
	Inside    draw.Color // tint of the ventricular side of the leaflets
	Vein      draw.Color
	Artery    draw.Color
	Device    draw.Color
	Clip      draw.Color
	Contact   draw.Color // where the leaflets meet
	Gap       draw.Color // where they do not
	Ghost     draw.Color // the state before treatment
}

func rgb(hex uint32) draw.Color {
	return draw.Color{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 255}
}

// Names lists the themes in the order in which a key steps through them.
func Names() []string { return []string{"light", "dark", "projector"} }

// Named returns a theme by its name.
func Named(name string) (Theme, bool) {
	for _, t := range []Theme{Light(), Dark(), Projector()} {
		if t.Name == name {
			return t, true
		}
	}
	return Theme{}, false
}

// Light is ink on warm paper, the default.
func Light() Theme {
	return Theme{Name: "light",
		Paper: rgb(0xF6F3EC), Card: rgb(0xFDFCF8), Tint: rgb(0xE7EDF0), Rule: rgb(0xDAD5C9), Edge: rgb(0x7D8794),
		Ink: rgb(0x1B2B48), Soft: rgb(0x4E5C74), Accent: rgb(0x2A5F8A), OnAcc: rgb(0xFFFFFF), Focus: rgb(0xB4490F),
		Better: rgb(0x1B6B4F), Worse: rgb(0xA23B12), Warn: rgb(0x8A5200),
		Annulus: rgb(0x4A7F86), Anterior: rgb(0xA97559), Posterior: rgb(0xA56F82), Inside: rgb(0xD8CDC4),
		Vein: rgb(0x3F6198), Artery: rgb(0xB5322A), Device: rgb(0x3D4756), Clip: rgb(0x5B4B8A),
		Contact: rgb(0x1F5FA8), Gap: rgb(0xB8410B), Ghost: rgb(0x606876)}
}

// Dark is for a dim room.
func Dark() Theme {
	return Theme{Name: "dark", Dark: true,
		Paper: rgb(0x141B26), Card: rgb(0x1C2532), Tint: rgb(0x263445), Rule: rgb(0x364254), Edge: rgb(0x7F8DA0),
		Ink: rgb(0xECE9E1), Soft: rgb(0xB4BECB), Accent: rgb(0x8FC1E8), OnAcc: rgb(0x10202F), Focus: rgb(0xFFB26B),
		Better: rgb(0x7FD3AC), Worse: rgb(0xFFA07C), Warn: rgb(0xF2C46D),
		Annulus: rgb(0x7FBAC0), Anterior: rgb(0xD9AE96), Posterior: rgb(0xCFA0B0), Inside: rgb(0xB7ADA6),
		Vein: rgb(0x86A9E0), Artery: rgb(0xF0776C), Device: rgb(0xD5DBE4), Clip: rgb(0xBBA8EE),
		Contact: rgb(0x8CC4FF), Gap: rgb(0xFF9A62), Ghost: rgb(0x98A3B3)}
}

// Projector is light with the strongest contrast, for washed-out rooms.
func Projector() Theme {
	return Theme{Name: "projector",
		Paper: rgb(0xFFFFFF), Card: rgb(0xFFFFFF), Tint: rgb(0xEAF1F8), Rule: rgb(0xB9BEC6), Edge: rgb(0x3C4654),
		Ink: rgb(0x06122B), Soft: rgb(0x2A3548), Accent: rgb(0x0B3F73), OnAcc: rgb(0xFFFFFF), Focus: rgb(0xA03A00),
		Better: rgb(0x0B4E36), Worse: rgb(0x7E2400), Warn: rgb(0x663B00),
		Annulus: rgb(0x1F6870), Anterior: rgb(0xA4643F), Posterior: rgb(0x984F68), Inside: rgb(0xCDBFB4),
		Vein: rgb(0x204A94), Artery: rgb(0x940F08), Device: rgb(0x111B2B), Clip: rgb(0x432B86),
		Contact: rgb(0x08479A), Gap: rgb(0x8C2900), Ghost: rgb(0x444C5A)}
}

// Fade returns c with its alpha multiplied by a (0 to 1).
func Fade(c draw.Color, a float64) draw.Color {
	c.A = uint8(float64(c.A)*a + 0.5)
	return c
}

// Mix returns the colour a share t of the way from a to b (straight sRGB values), opaque.
func Mix(a, b draw.Color, t float64) draw.Color {
	f := func(x, y uint8) uint8 { return uint8(float64(x) + t*(float64(y)-float64(x)) + 0.5) }
	return draw.Color{R: f(a.R, b.R), G: f(a.G, b.G), B: f(a.B, b.B), A: 255}
}
