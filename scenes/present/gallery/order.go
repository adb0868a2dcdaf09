package gallery

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/figure"
)

// Formats of files.
const (
	PNG = "png" // a picture
	SVG = "svg" // a drawing: flat but for the valve, which it holds as a picture
	GIF = "gif" // a film
	ZIP = "zip" // the frames of a film, as pictures
	PDF = "pdf" // a handout of one page
)

// Formats lists the formats in the order in which they are offered.
func Formats() []string { return []string{PNG, SVG, GIF, ZIP, PDF} }

// What lists what a format can hold.
func What(format string) []string {
	switch format {
	case PNG, SVG:
		return Kinds()
	case GIF, ZIP:
		return []string{Valve, Cut, Orifices, Strip, Compare}
	case PDF:
		return []string{Valve, Compare} // the case, or the comparison
	}
	return nil
}

// Moves tells whether a film of a kind can show the beat, and whether it can show a number being changed.
func Moves(kind string) (beat, sweep bool) {
	switch kind {
	case Valve:
		return true, true
	case Compare:
		return true, false
	}
	return false, true
}

// Limits of films. Chosen: a beat of 24 frames runs smoothly, and a page can hold 96.
const (
	LeastFrames   = 2
	MostFrames    = 96
	DefaultFrames = 24
)

// Order says what file to make.
type Order struct {
	What, Format  string
	Scale         float64 // 1, 2 or 4 pixels a logical pixel; zero counts as 1
	Transparent   bool    // PNG and ZIP
	Width, Height float64 // logical pixels; zero: the kind's own
	Frames        int     // GIF and ZIP; zero: DefaultFrames
	Hundredths    int     // of a second each frame; zero: the beat at its own pace, or a sweep in three seconds
	Knob          string  // the number to change, as study names knobs; empty: the beat
	From, To      float64
	Screen        *draw.List // what the screen shows, for Screen
}

// withDefaults fills in what was left open.
func (o Order) withDefaults() Order {
	if o.Scale == 0 {
		o.Scale = 1
	}
	if o.Width == 0 || o.Height == 0 {
		o.Width, o.Height = Size(o.What)
	}
	if o.Frames == 0 {
		o.Frames = DefaultFrames
	}
	return o
}

// Check tells what is wrong with an order.
func (o Order) Check() error {
	beat, sweep := Moves(o.What)
	film := o.Format == GIF || o.Format == ZIP
	switch {
	case !slices.Contains(Formats(), o.Format):
		return fmt.Errorf("gallery: format is %q; allowed are %s", o.Format, strings.Join(Formats(), ", "))
	case !slices.Contains(What(o.Format), o.What):
		return fmt.Errorf("gallery: a %s cannot show %q; it can show %s", o.Format, o.What, strings.Join(What(o.Format), ", "))
	case !slices.Contains([]float64{0, 1, 2, 4}, o.Scale):
		return fmt.Errorf("gallery: scale is %g; allowed are 1, 2 and 4", o.Scale)
	case film && o.Frames != 0 && (o.Frames < LeastFrames || o.Frames > MostFrames):
		return fmt.Errorf("gallery: %d frames; allowed are %d to %d", o.Frames, LeastFrames, MostFrames)
	case film && o.Knob == "" && !beat:
		return fmt.Errorf("gallery: %q does not move with the beat; choose a number to change", o.What)
	case film && o.Knob != "" && !sweep:
		return fmt.Errorf("gallery: %q can only show the beat", o.What)
	case o.Transparent && o.Format != PNG && o.Format != ZIP:
		return fmt.Errorf("gallery: only PNG pictures can leave the background out, not %s", o.Format)
	case o.What == Screen && o.Screen == nil:
		return fmt.Errorf("gallery: the screen was not drawn")
	case math.IsNaN(o.From) || math.IsNaN(o.To) || math.IsInf(o.From, 0) || math.IsInf(o.To, 0):
		return fmt.Errorf("gallery: the ends of the change are %g and %g", o.From, o.To)
	}
	return nil
}

// Name is the file's name: the program, the case, what it shows.
func (o Order) Name(caseName string) string {
	what := o.What
	switch {
	case o.Format == PDF && what == Valve:
		what = "handout"
	case o.Format == PDF:
		what = "handout-compare"
	case (o.Format == GIF || o.Format == ZIP) && o.Knob == "":
		what += "-beat"
	case o.Format == GIF || o.Format == ZIP:
		what += "-sweep"
	}
	clean := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return '-'
	}, strings.ToLower(caseName))
	return "annuloscope-" + clean + "-" + what + "." + o.Format
}

func (o Order) options() figure.Options {
	return figure.Options{Scale: o.Scale, Transparent: o.Transparent}
}
