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
