package scenes

import (
	"math"
	"time"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/raster"

	"github.com/hajimehoshi/ebiten/v2"
)

// Times that decide how finely scenes are painted. Chosen.
const (
	restSeconds = 0.3                   // without a change, before the finer picture
	mostRefined = 25 * time.Millisecond // a moving picture that took longer is left as it is: the finest would be felt
	tooSlow     = 20 * time.Millisecond // a moving picture that took longer makes the next ones rough
	fastAgain   = 6 * time.Millisecond  // a rough picture that took less makes the next ones fine again
)

// game is a screen as Ebitengine runs it.
type game struct {
	screen  present.Screen
	options Options
	painter *raster.Painter
	shell   shell

	list          draw.List
	texture       texture
	wide, high    int     // picture, device pixels
	scale         float64 // device pixels per logical pixel
	begin         time.Time
	poll          poll
	dirty         bool    // a new picture is needed
	fresh         bool    // the texture is newer than the window
	coarse        bool    // the last picture shows a scene at moving quality
	changed       float64 // when the screen last changed, seconds
	took          time.Duration
	painted       raster.Quality // of the last picture
	moving        raster.Quality // of scenes in motion
	owed          int            // ticks left out since the picture became due
	asked         time.Time      // when the first unanswered input came; zero if none
	answer        pace.Answer    // what pictures have shown of the answer to it
	shown         bool
	pictures      int // painted so far
	injected      []input.Event
	injectedCalls []func()
}

// LayoutF sizes the picture in device pixels.
func (g *game) LayoutF(w, h float64) (float64, float64) {
	scale := ebiten.Monitor().DeviceScaleFactor()
	if !(scale > 0) {
		scale = 1
	}
	wide, high := int(math.Ceil(w*scale)), int(math.Ceil(h*scale))
	wide, high = min(max(wide, 1), 8192), min(max(high, 1), 8192)
	if wide != g.wide || high != g.high || scale != g.scale {
		g.wide, g.high, g.scale, g.dirty = wide, high, scale, true
		w, h := g.size()
		g.injected = append(g.injected, input.Event{Kind: input.Resize, X: w, Y: h})
	}
	return float64(wide), float64(high)
}

// Layout is never called, since LayoutF is there.
func (g *game) Layout(w, h int) (int, int) { return w, h }

func (g *game) size() (w, h float64) { return float64(g.wide) / g.scale, float64(g.high) / g.scale }

// Update hands over the input and lets the screen's time go on.
func (g *game) Update() error {
	if g.begin.IsZero() {
		g.begin = time.Now()
	}
	at := time.Now()
	now := at.Sub(g.begin).Seconds()
	w, h := g.size()
	events := g.poll.events(g.scale, w, h, g.injected)
	g.injected = g.injected[:0]
	if g.options.Events != nil {
		events = append(events, g.options.Events(now)...)
	}
	if g.options.Drive != nil {
		events = append(events, g.options.Drive.events(g)...)
	}
	for _, f := range g.injectedCalls {
		f()
	}
	input := len(events) > 0 || len(g.injectedCalls) > 0
	g.injectedCalls = g.injectedCalls[:0]
	for _, e := range events {
		g.screen.Handle(e)
	}
	if input && g.asked.IsZero() {
		g.asked, g.answer = at, pace.Answer{}
	}
	if g.dirty && g.owed < mostOwed {
		g.owed++
	} else if g.screen.Tick(now) {
		g.dirty, g.changed, g.owed = true, now, 0
	} else if !g.dirty && !g.asked.IsZero() && !g.pending() {
		g.asked = time.Time{} // the input changed nothing
	}
	if g.coarse && !g.dirty && now-g.changed > restSeconds {
		g.refine()
	}
	if err := g.wishes(); err != nil {
		return err
	}
	g.shell.tick(g, now)
	if g.options.Done != nil && g.options.Done() {
		return ebiten.Termination
	}
	return nil
}

// refine paints what stands still once more, finer by a step or at once by two, if that is not felt.
func (g *game) refine() {
	switch {
	case g.took < mostRefined:
		g.painter.Quality, g.dirty = raster.Still, true
	case g.painted < raster.Moving:
		g.painter.Quality, g.dirty = raster.Moving, true
	}
}

func (g *game) pending() bool {
	p, ok := g.screen.(present.Pending)
	return ok && p.Pending()
}

// Draw paints if needed and submits the picture.
func (g *game) Draw(window *ebiten.Image) {
	if g.dirty {
		g.paint()
	}
	if !g.fresh {
		return
	}
	var o ebiten.DrawImageOptions
	o.Blend = ebiten.BlendCopy
	window.DrawImage(g.texture.image, &o)
	g.fresh, g.shown = false, true
	g.measure()
}

func (g *game) paint() {
	at := time.Now()
	w, h := g.size()
	g.screen.Paint(&g.list, w, h)
	if !(g.list.Width > 0 && g.list.Height > 0) {
		panic("scenes: the screen painted a list without a size")
	}
	picture := g.painter.Paint(&g.list, g.scale)
	changed := g.painter.Fresh()
	g.texture.put(picture, changed)
	g.painted = g.painter.Quality
	g.coarse = g.painted < raster.Still && solid(&g.list)
	if g.painter.Quality < raster.Still {
		g.took = time.Since(at)
		switch {
		case g.coarse && g.took > tooSlow:
			g.moving = raster.Rough
		case g.took < fastAgain:
			g.moving = raster.Moving
		}
	}
	g.painter.Quality = g.moving
	g.dirty, g.owed = false, 0
	g.fresh = g.fresh || len(changed) > 0 || !g.shown
	g.pictures++
	g.shell.painted(g, picture)
}

func solid(l *draw.List) bool {
	for i := range l.Ops {
		if l.Ops[i].Kind == draw.KindScene {
			return true
		}
	}
	return false
}

// measure notes how long the picture just submitted took since the input it answers.
func (g *game) measure() {
	if g.asked.IsZero() {
		return
	}
	if t := g.options.Times; t != nil {
		g.answer.Picture(t, g.screen, time.Since(g.asked))
	}
	if !g.pending() {
		g.asked = time.Time{}
	}
}

// wishes does what the screen asks of its shell.
func (g *game) wishes() error {
	w, ok := g.screen.(present.Wisher)
	if !ok {
		return nil
	}
	for _, wish := range w.Wishes() {
		where, err := "", error(nil)
		switch wish.Kind {
		case present.FullScreen:
			ebiten.SetFullscreen(!ebiten.IsFullscreen())
		case present.Quit:
			if g.shell.quits() {
				return ebiten.Termination
			}
		default:
			where, err = g.shell.grant(wish)
		}
		if wish.Done != nil {
			wish.Done(where, err)
		}
	}
	return nil
}
