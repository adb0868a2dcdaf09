package desk

import (
	"errors"
	"math"
	"strings"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/fault"
	"annuloscope/sim/valve"
)

// Desk is shared by the scenes. Use New.
type Desk struct {
	U *widget.UI
	S *study.Study
	V study.View
	P study.Settings

	Model   relief.Model   // after treatment
	Open    float64        // how far the leaflets are open now
	Message string         // one line at the foot, until the next action
	Jet     bool           // mark the origin of the leak
	Near    bool           // the valve alone fills the picture, without the vessels
	Quiet   bool           // no numbers beside the picture
	Small   bool           // the picture is small: its buttons are elsewhere
	Bad     bool           // the message refuses something
	Goto    string         // name of the scene to go to after the action in hand; empty to stay
	Wishes  []present.Wish // what the scenes ask of the shell, handed over after each tick

	loaded                uint64
	beatAfter, beatBefore *valve.Beats
	labels                relief.Placer
}

// New returns a desk.
func New(u *widget.UI, s *study.Study) *Desk {
	return &Desk{U: u, S: s, V: study.DefaultView(), P: study.DefaultSettings(), loaded: math.MaxUint64}
}

// W is the words of the language in use.
func (d *Desk) W() *words.Words { return d.U.W }

// Sync loads the newest report into the model.
func (d *Desk) Sync() {
	d.S.SetShell(d.V.Engine == valve.ShellEngine)
	if d.loaded == d.S.Version || !d.S.Solved {
		return
	}
	d.loaded = d.S.Version
	d.keepBeats()
	d.holdPhase()
	d.Model.Load(d.S.Report.Scene.After, d.S.Report.After.Clips)
}

// Say shows a message.
func (d *Desk) Say(text string, bad bool) { d.Message, d.Bad = text, bad }

// Wish asks something of the shell.
func (d *Desk) Wish(w present.Wish) { d.Wishes = append(d.Wishes, w) }

// Refuse shows why something cannot be done.
func (d *Desk) Refuse(err error) {
	if err != nil {
		d.Say(d.W().F("message.invalid", "why", d.Why(err)), true)
	}
}

// Why words an error in the language in use.
func (d *Desk) Why(err error) string {
	w, why := d.W(), d.W().Problem(err.Error())
	var f *fault.Field
	if errors.As(err, &f) && f.Line == 0 {
		name := w.Table("curve."+f.Path, f.Path)
		for _, id := range []string{"anatomy/" + f.Path, "repair/" + strings.Replace(f.Path, ".", "/", 1)} {
			if k, ok := d.S.Knob(id); ok {
				name = tell.KnobName(w, k)
			}
		}
		why = w.F("message.fault", "name", name, "problem", w.Problem(f.Problem), "allowed", w.Allowed(f.Allowed))
	}
	return why
}

// Apply does what an action on a knob or a repair asks for and tells whether it was one.
func (d *Desk) Apply(a widget.Action) bool {
	switch {
	case a.Verb == widget.Refused:
		d.Say(a.Text, true)
	case strings.HasPrefix(a.ID, "anatomy/"), strings.HasPrefix(a.ID, "group/"), strings.HasPrefix(a.ID, "repair/"):
		if a.Verb != widget.Changed {
			return false
		}
		d.Refuse(d.S.Turn(a.ID, a.Value, a.Continue))
	case strings.HasPrefix(a.ID, "place/"):
		d.Refuse(d.S.Place(strings.TrimPrefix(a.ID, "place/"), a.Value > 0))
	case strings.HasPrefix(a.ID, "choice/"):
		for _, c := range choices() {
			if c.Path == strings.TrimPrefix(a.ID, "choice/") {
				d.Refuse(d.S.Choose(c.Path, c.Options[a.Index]))
			}
		}
	default:
		return false
	}
	return true
}

// Knob draws the slider of a knob and returns its height, with the space below it.
func (d *Desk) Knob(x, y, width float64, id string) float64 {
	k, ok := d.S.Knob(id)
	if !ok {
		panic("desk: no knob " + id)
	}
	spec := widget.SliderSpec{ID: id, Name: tell.KnobName(d.W(), k), Value: k.Value, Min: k.Min, Max: k.Max, Step: k.Step, Mark: k.Start,
		Decimals: k.Decimals, Unit: k.Unit, Dim: !k.On && !places(id)}
	return d.U.Slider(x, y, width, spec) + d.U.S(4)
}

// places tells whether moving a knob is how a person puts a repair in place: it must look as if it can be moved.
func places(id string) bool {
	return id == "repair/sinus-band/shortening_mm" || id == "repair/edge-clip/position"
}

// Tip explains a control.
func (d *Desk) Tip(id string) widget.Tip {
	w := d.W()
	if path, ok := strings.CutPrefix(id, "quantity/"); ok {
		q, ok := valve.FindQuantity(path)
		if !ok {
			return widget.Tip{}
		}
		t := widget.Tip{Title: tell.Label(w, q)}
		either := func(key, text, none string) string {
			if text == "" {
				return w.T(none)
			}
			return w.Table(key, text)
		}
		group, _, _ := strings.Cut(path, ".")
		for _, r := range [][2]string{{"tip.meaning", w.Table("meaning."+path, q.Meaning)}, {"tip.phase", w.Table("phase."+q.Phase, q.Phase)},
			{"tip.formula", either("formula."+path, q.Formula, "tip.formula.none")}, {"tip.inputs", w.T("tip.inputs." + group)},
			{"tip.limits", either("limits."+path, q.Limits, "tip.limits.none")}, {"tip.source", source(w, q.Source)}} {
			t.Rows = append(t.Rows, widget.TipRow{Head: w.T(r[0]), Text: r[1]})
		}
		return t
	}
	if k, ok := d.S.Knob(id); ok {
		return widget.Tip{Title: tell.KnobName(w, k), Rows: []widget.TipRow{
			{Head: w.T("tip.meaning"), Text: w.Table(k.TableKey, k.Text)},
			{Head: w.T("tip.range"), Text: w.F("tip.range.text", "low", w.Num(k.Min, k.Decimals), "high", w.With(k.Max, k.Decimals, k.Unit), "step", w.With(k.Step, k.Decimals, k.Unit))},
			{Head: w.T("tip.source"), Text: w.Source(k.Source)}, {Text: w.T("tip.keys")}}}
	}
	if t, ok := d.placeTip(id); ok {
		return t
	}
	if t, ok := d.verdictTip(id); ok {
		return t
	}
	if key := "tip." + id; w.Has(key) {
		return widget.Tip{Title: w.T(key)}
	}
	return widget.Tip{}
}

// Placer returns the label placer for a picture.
func (d *Desk) Placer(r draw.Rect, cam draw.Camera) *relief.Placer {
	d.labels.Reset(d.U, r, cam)
	return &d.labels
}
