package program

import (
	"fmt"
	"strconv"
	"strings"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/valve"
)

var _ interface {
	present.Screen
	present.Spoken
	present.Pending
	present.Staged
	present.Inspected
} = (*Program)(nil)

// Announcement is what just changed and why. It stays until the next change.
func (p *Program) Announcement() string {
	if p.d.Message != "" {
		return p.d.Message
	}
	if p.lecturing() { // the sentence would tell what is still hidden
		return p.lectern.Describe()
	}
	if p.d.S.Updating() && p.d.S.Solved {
		return p.telling
	}
	p.telling = p.says()
	return p.telling
}

// Description tells the whole state in words; it is also the picture's alternative text.
func (p *Program) Description() string {
	if n := p.names[p.at]; n == "lessons" || n == "cohort" { // their state is not the study's
		return p.scenes[p.at].Describe()
	}
	if p.dirty || p.described != p.d.S.Version || p.description == "" || p.describedView != p.d.V || p.describedScene != p.at || p.describedIn != p.d.P.Language {
		p.described, p.describedView, p.describedScene, p.describedIn = p.d.S.Version, p.d.V, p.at, p.d.P.Language
		p.description = p.scenes[p.at].Describe()
	}
	return p.description
}

// Pending tells whether an answer is still being computed; the leaflets in three dimensions, where they are chosen, are part of it.
func (p *Program) Pending() bool { return p.d.S.Updating() || p.d.S.Settling() }

// Stage tells how much of the answer is there. Leaflets that do not settle in three dimensions leave it at the causes.
func (p *Program) Stage() present.Stage {
	switch s := p.d.S; {
	case s.Waiting():
		return present.Asked
	case s.Stale():
		return present.Geometry
	case s.Explaining():
		return present.Numbers
	case !s.Shell() || s.Settling() || s.Failure != nil || s.Report.Provenance.Engine != valve.ShellEngine:
		return present.Causes
	}
	return present.Settled
}

// Inspect returns the shared document and the numbers before and after.
func (p *Program) Inspect() any {
	return map[string]any{"document": p.Document(), "page": p.page, "scene": p.names[p.at], "focus": p.d.U.Focus, "updating": p.d.S.Updating(),
		"sentence": p.says(), "before": p.d.S.Report.Before, "after": p.d.S.Report.After}
}

var roles = map[widget.Kind]present.Role{widget.Button: present.Button, widget.Toggle: present.Checkbox, widget.Choice: present.Choice,
	widget.Slider: present.Slider, widget.Handle: present.Slider, widget.Info: present.Reading, widget.Picture: present.Image, widget.Line: present.Entry}

// Controls lists the controls of the last picture in tab order.
func (p *Program) Controls() []present.Control {
	out := make([]present.Control, 0, len(p.d.U.Controls))
	for _, c := range p.d.U.Controls {
		k := present.Control{ID: c.ID, Name: c.Name, Role: roles[c.Kind], Value: c.Value, Min: c.Min, Max: c.Max, Step: c.Step, Unit: p.d.W().Unit(c.Unit),
			Text: c.Text, Options: c.Options, On: c.On, Disabled: c.Disabled, Rect: c.Rect, Hint: p.hint(&c), Group: p.heading(&c)}
		if c.Kind == widget.Picture {
			k.Text = p.Description()
		}
		out = append(out, k)
	}
	return p.prompt(out)
}

// Act works a control as a person would.
func (p *Program) Act(id, value string) error {
	c, ok := p.d.U.Find(id)
	if !ok {
		return fmt.Errorf("program: no control %q on this screen", id)
	}
	if c.Disabled {
		return fmt.Errorf("program: %s cannot be used now", c.Name)
	}
	a := widget.Action{ID: id}
	switch c.Kind {
	case widget.Slider, widget.Handle:
		v, ok := p.d.W().Parse(value)
		if !ok || v < c.Min || v > c.Max {
			return fmt.Errorf("program: %s takes %g to %g %s, not %q", c.Name, c.Min, c.Max, c.Unit, value)
		}
		a.Verb, a.Value = widget.Changed, v
	case widget.Choice:
		a.Verb, a.Index = widget.Selected, -1
		for i, o := range c.Options {
			if o == value || strconv.Itoa(i) == value {
				a.Index = i
			}
		}
		if a.Index < 0 {
			return fmt.Errorf("program: %s takes one of %s, not %q", c.Name, strings.Join(c.Options, ", "), value)
		}
	case widget.Toggle:
		a.Verb = widget.Pressed
		switch value {
		case "true":
			a.Value = 1
		case "false":
		default:
			return fmt.Errorf("program: %s takes true or false, not %q", c.Name, value)
		}
	case widget.Line:
		a.Verb, a.Text = widget.Typed, strings.TrimSpace(value)
	case widget.Button:
		a.Verb, a.Value = widget.Pressed, 1
	default:
		return fmt.Errorf("program: %s can only be read", c.Name)
	}
	p.apply(a)
	return nil
}
