package theme_test

import (
	"math"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
)

// WCAG 2.2: 1.4.3 (text 4.5:1), 1.4.6 (7:1, asked of the projector theme), 1.4.11 (controls and graphics 3:1).
func TestContrastOfEveryRole(t *testing.T) {
	for _, name := range theme.Names() {
		th, ok := theme.Named(name)
		if !ok || th.Name != name {
			t.Fatalf("theme %q missing", name)
		}
		least := 4.5
		if name == "projector" {
			least = 7
		}
		surfaces := map[string]draw.Color{"paper": th.Paper, "card": th.Card, "tint": th.Tint}
		for sn, s := range surfaces {
			for cn, c := range map[string]draw.Color{"ink": th.Ink, "soft": th.Soft, "better": th.Better, "worse": th.Worse, "warn": th.Warn, "accent": th.Accent} {
				if r := theme.Contrast(c, s); r < least {
					t.Errorf("%s: %s on %s has %.2f, want %.1f", name, cn, sn, r, least)
				}
			}
			for cn, c := range map[string]draw.Color{"edge": th.Edge, "anterior": th.Anterior, "posterior": th.Posterior, "focus": th.Focus, "annulus": th.Annulus,
				"vein": th.Vein, "artery": th.Artery, "device": th.Device, "clip": th.Clip, "contact": th.Contact, "gap": th.Gap, "ghost": th.Ghost} {
				if r := theme.Contrast(c, s); r < 3 {
					t.Errorf("%s: %s on %s has %.2f, want 3", name, cn, sn, r)
				}
			}
		}
		if r := theme.Contrast(th.OnAcc, th.Accent); r < least {
			t.Errorf("%s: text on accent has %.2f", name, r)
		}
	}
}

// Known ratios: black on white is 21; #767676 on white is the well-known 4.54 (WCAG techniques).
func TestContrastAgainstKnownRatios(t *testing.T) {
	white, black := draw.Color{R: 255, G: 255, B: 255, A: 255}, draw.Color{A: 255}
	if r := theme.Contrast(black, white); math.Abs(r-21) > 1e-9 {
		t.Errorf("black on white %v", r)
	}
	if r := theme.Contrast(draw.Color{R: 0x76, G: 0x76, B: 0x76, A: 255}, white); math.Abs(r-4.54) > 0.005 {
		t.Errorf("grey 767676 on white %v, want 4.54", r)
	}
}

func TestFieldMapRisesEvenly(t *testing.T) {
	last := -1.0
	for i := 0; i <= 64; i++ {
		c := theme.Cividis(float64(i) / 64)
		l := theme.Luminance(c)
		if l <= last {
			t.Fatalf("luminance falls at %d: %v after %v", i, l, last)
		}
		last = l
	}
	if theme.Cividis(math.NaN()) != theme.Cividis(0) || theme.Cividis(2) != theme.Cividis(1) {
		t.Error("ends")
	}
}

// Machado, Oliveira and Fernandes 2009, severity 1 (matrices from memory, on linear sRGB): what a person without the
// middle or the long cones sees.
var dichromats = map[string][9]float64{
	"deuteranopia": {0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940, 0.968881},
	"protanopia":   {0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998},
}

// lab is a colour in CIELAB (D65) as such a person sees it.
func lab(m [9]float64, c draw.Color) (l, a, b float64) {
	lin := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	in := [3]float64{lin(c.R), lin(c.G), lin(c.B)}
	var rgb [3]float64
	for i := range rgb {
		rgb[i] = math.Min(math.Max(m[3*i]*in[0]+m[3*i+1]*in[1]+m[3*i+2]*in[2], 0), 1)
	}
	f := func(v float64) float64 {
		if v > 0.008856 {
			return math.Cbrt(v)
		}
		return 7.787*v + 16.0/116
	}
	x := f((0.4124*rgb[0] + 0.3576*rgb[1] + 0.1805*rgb[2]) / 0.9505)
	y := f(0.2126*rgb[0] + 0.7152*rgb[1] + 0.0722*rgb[2])
	z := f((0.0193*rgb[0] + 0.1192*rgb[1] + 0.9505*rgb[2]) / 1.089)
	return 116*y - 16, 500 * (x - y), 200 * (y - z)
}

// Colours that mean different things stay different for colour-blind eyes, so that no pair is a red and a green of one
// lightness: 15 in CIELAB is told apart side by side (chosen).
func TestColourBlindEyesTellThePairsApart(t *testing.T) {
	for _, name := range theme.Names() {
		th, _ := theme.Named(name)
		for eyes, m := range dichromats {
			for pair, c := range map[string][2]draw.Color{"better and worse": {th.Better, th.Worse}, "vein and artery": {th.Vein, th.Artery},
				"contact and gap": {th.Contact, th.Gap}, "focus and accent": {th.Focus, th.Accent}, "gap and ghost": {th.Gap, th.Ghost}} {
				l0, a0, b0 := lab(m, c[0])
				l1, a1, b1 := lab(m, c[1])
				if d := math.Sqrt((l0-l1)*(l0-l1) + (a0-a1)*(a0-a1) + (b0-b1)*(b0-b1)); d < 15 {
					t.Errorf("%s, %s: %s differ by %.1f, want 15", name, eyes, pair, d)
				}
			}
		}
	}
}
