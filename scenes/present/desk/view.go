package desk

import (
	"math"
	"strings"

	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/valve"
)

func choices() []anatomy.Choice { return anatomy.Choices() }

const (
	turnPerPixel = 0.5 // degrees; chosen
	turnPerKey   = 10.0
	zoomPerNotch = 1.12
	leastZoom    = 0.5
	mostZoom     = 4.0
)

// Modes of the beat.
const (
	Held   = "systole"
	Opened = "diastole"
	Beat   = "beat"
	Scrub  = "scrub" // held at the phase chosen
)

// Modes lists the modes in the order of the choice on screen.
func Modes() []string { return []string{Held, Beat, Opened} }

// Turn turns the view by degrees.
func (d *Desk) Turn(azimuth, elevation float64) {
	d.V.Azimuth = math.Mod(d.V.Azimuth+azimuth+540, 360) - 180
	d.V.Elevation = math.Min(math.Max(d.V.Elevation+elevation, -90), 90)
	d.V.Named = ""
}

// Zoom comes nearer by notches.
func (d *Desk) Zoom(notches float64) {
	d.V.Zoom = math.Min(math.Max(d.V.Zoom*math.Pow(zoomPerNotch, notches), leastZoom), mostZoom)
}

// Look takes a named view.
func (d *Desk) Look(name string) {
	if v, ok := relief.FindView(name); ok {
		d.V.Azimuth, d.V.Elevation, d.V.Named, d.V.Zoom = v.Azimuth, v.Elevation, name, v.Zoom
	}
}

// NextView takes the next named view.
func (d *Desk) NextView() {
	all := relief.Views()
	next := all[0].Name
	for i, v := range all {
		if v.Name == d.V.Named {
			next = all[(i+1)%len(all)].Name
		}
	}
	d.Look(next)
}

// Hold sets the mode of the beat.
func (d *Desk) Hold(mode string) {
	d.V.Mode = mode
	d.Sync()
	d.holdPhase()
	d.Pose()
}

// holdPhase puts the phase of a held valve where the circulation has mid-systole or mid-diastole.
func (d *Desk) holdPhase() {
	switch d.V.Mode {
	case Held:
		d.V.Phase = relief.Systole
		if b := d.Beat(); b != nil {
			d.V.Phase = b.Phases.MidSystole / b.Waves.Time[len(b.Waves.Time)-1]
		}
	case Opened:
		d.V.Phase = relief.Diastole
		if b := d.Beat(); b != nil {
			d.V.Phase = math.Mod(b.Phases.MidDiastole/b.Waves.Time[len(b.Waves.Time)-1], 1)
		}
	}
}

// Pose sets the opening from mode and phase.
func (d *Desk) Pose() {
	switch d.V.Mode {
	case Held:
		d.Open = 0
	case Opened:
		d.Open = 1
	default:
		d.Open = d.Opening(d.V.Phase)
	}
}

// Move steps the cut.
func (d *Desk) Move(by float64) {
	d.V.Station = math.Min(math.Max(math.Round((d.V.Station+by)*100)/100, -1), 1)
}

// ApplyView does what an action on the view asks for and tells whether it was one.
func (d *Desk) ApplyView(a widget.Action) bool {
	switch a.ID {
	case "picture":
		switch a.Verb {
		case widget.Dragged:
			d.Turn(-a.DX*turnPerPixel, a.DY*turnPerPixel)
		case widget.Zoomed:
			d.Zoom(a.DY)
		case widget.Keyed:
			d.pictureKey(a.Key)
		}
	case "views":
		d.Look(relief.Views()[a.Index].Name)
	case "mode":
		d.Hold(Modes()[a.Index])
	case "station":
		if a.Verb == widget.Changed {
			d.V.Station = a.Value
		}
	case "engine":
		d.V.Engine = []string{valve.SectionsEngine, valve.ShellEngine}[a.Index]
		d.Sync()
	case "field":
		d.V.Field = string(relief.Fields()[a.Index])
	case "turn/left":
		d.Turn(-turnPerKey, 0)
	case "turn/right":
		d.Turn(turnPerKey, 0)
	case "turn/up":
		d.Turn(0, turnPerKey)
	case "turn/down":
		d.Turn(0, -turnPerKey)
	case "turn/in":
		d.Zoom(1)
	case "turn/out":
		d.Zoom(-1)
	default:
		return strings.HasPrefix(a.ID, "turn/")
	}
	return true
}

func (d *Desk) pictureKey(k input.Key) {
	switch k {
	case input.Left:
		d.Turn(-turnPerKey, 0)
	case input.Right:
		d.Turn(turnPerKey, 0)
	case input.Up:
		d.Turn(0, turnPerKey)
	case input.Down:
		d.Turn(0, -turnPerKey)
	case input.Plus, input.PageUp:
		d.Zoom(1)
	case input.Minus, input.PageDown:
		d.Zoom(-1)
	case input.Home:
		d.Look("atrium")
	}
}
