package scenes

import (
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"strings"
	"syscall/js"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"
)

const onPage = true

// mostOwed is how many ticks are left out in a row while a picture is owed: a slow machine runs several ticks for one
// picture, and the page computes in ticks, so that the quick answer would not be seen before the slow one. Bounded,
// since a hidden page may never be painted. Chosen.
const mostOwed = 4

// mirrorEvery: shortest time between two updates of the page's HTML side, seconds. Chosen: a live region that changes
// faster cannot be read out.
const mirrorEvery = 0.15

// shell is what differs between window and page: page.js holds the other half, under the global annuloscopePage.
type shell struct {
	page     js.Value
	pictures int
	mirrored float64
}

func newShell(Options) shell { return shell{page: js.Global().Get("annuloscopePage")} }

func (s *shell) quits() bool                { return false }
func (s *shell) painted(*game, *image.RGBA) {}

// start hands the page the functions it may call. They only note what is wanted; the game does it at its next tick.
func (s *shell) start(g *game) {
	later := func(f func(args []js.Value)) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			g.injectedCalls = append(g.injectedCalls, func() { f(args) })
			return nil
		})
	}
	functions := map[string]any{
		"state": js.FuncOf(func(js.Value, []js.Value) any {
			data, err := json.Marshal(g.state())
			if err != nil {
				return fmt.Sprintf(`{"error":%q}`, err.Error())
			}
			return string(data)
		}),
		"act": later(func(args []js.Value) {
			if sp, ok := g.screen.(present.Spoken); ok {
				if err := sp.Act(args[0].String(), args[1].String()); err != nil {
					s.page.Call("say", err.Error())
				}
			}
		}),
		"open": later(func(args []js.Value) {
			if o, ok := g.screen.(present.Opener); ok {
				o.Open(args[0].String(), args[1].String())
			}
		}),
		"file": later(func(args []js.Value) {
			data := make([]byte, args[1].Get("length").Int())
			js.CopyBytesToGo(data, args[1])
			g.screen.Handle(input.Event{Kind: input.Drop, Name: args[0].String(), Data: data})
		}),
	}
	if !s.page.Truthy() {
		return // a page of somebody else's: the picture works, the HTML side is absent
	}
	s.page.Call("started", js.ValueOf(functions))
	at := js.Global().Get("location")
	fragment, query := strings.TrimPrefix(at.Get("hash").String(), "#"), strings.TrimPrefix(at.Get("search").String(), "?")
	if bench, ok := strings.CutPrefix(query, "bench="); ok {
		s.bench(g, bench)
		return
	}
	if o, ok := g.screen.(present.Opener); ok {
		o.Open(fragment, query)
	}
}

// bench drives a control as the address asks (ParseDrive) and tells the page what it took, or why there is nothing to tell.
func (s *shell) bench(g *game, what string) {
	d, err := ParseDrive(what)
	if err != nil {
		s.page.Call("say", err.Error())
		return
	}
	t := new(pace.Times)
	d.Ended = func(float64, float64, bool) {
		told := Driven{Summaries: t.Summary()}
		if d.Err != nil {
			told.Error = d.Err.Error()
		}
		data, err := json.Marshal(told)
		if err == nil {
			s.page.Call("bench", string(data))
		}
	}
	g.options.Times, g.options.Drive = t, d
}

// tick keeps the HTML side in step, at most every mirrorEvery seconds.
func (s *shell) tick(g *game, now float64) {
	if !s.page.Truthy() || g.pictures == s.pictures || now-s.mirrored < mirrorEvery {
		return
	}
	s.pictures, s.mirrored = g.pictures, now
	sp, ok := g.screen.(present.Spoken)
	if !ok {
		return
	}
	told := map[string]any{"controls": sp.Controls(), "announcement": sp.Announcement(), "description": sp.Description()}
	if l, ok := g.screen.(interface{ Language() string }); ok {
		told["language"] = l.Language()
	}
	data, err := json.Marshal(told)
	if err == nil {
		s.page.Call("mirror", string(data))
	}
}

// grant does what a page can do for a screen.
func (s *shell) grant(w present.Wish) (where string, err error) {
	if !s.page.Truthy() {
		return "", errors.New("this page cannot save, copy or open")
	}
	switch w.Kind {
	case present.SaveFile:
		data := js.Global().Get("Uint8Array").New(len(w.Data))
		js.CopyBytesToJS(data, w.Data)
		s.page.Call("download", w.Name, data)
		return w.Name, nil
	case present.CopyText:
		if !s.page.Call("copy", w.Text).Bool() {
			return "", errors.New("the browser does not allow copying here")
		}
	case present.SetAddress:
		s.page.Call("address", w.Text)
	case present.OpenFile:
		s.page.Call("choose")
	}
	return "", nil
}
