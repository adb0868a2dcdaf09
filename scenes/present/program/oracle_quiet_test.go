package program_test

import (
	"fmt"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/raster"
)

// Nothing is painted again when nothing has changed: in every scene, held in systole and solved, two seconds of ticks
// ask for no picture; and a picture of the same state is the same to the last byte.
func TestNothingIsRepaintedWhenNothingChanges(t *testing.T) {
	p := start(t, "functional")
	turn(t, p, shortening, 12)
	settle(p)
	now := 0.0
	painter := raster.New(1)
	for i, scene := range p.Scenes() {
		if raceDetector && i > 2 {
			break // what the others compute beside takes minutes then
		}
		key(p, input.Key(fmt.Sprint(i+1)), 0)
		var l draw.List
		for quiet, ticks := 0, 0; quiet < 60 && ticks < 3000; quiet, ticks = quiet+1, ticks+1 { // let what a scene computes beside come in
			now += 1.0 / 60
			if p.Tick(now) {
				p.Paint(&l, 1280, 800)
				quiet = 0
			}
		}
		asked := 0
		for range 120 {
			now += 1.0 / 60
			if p.Tick(now) {
				asked++
				p.Paint(&l, 1280, 800)
			}
		}
		if asked > 0 {
			t.Errorf("%s: %d of 120 ticks ask for a picture although nothing changed", scene, asked)
		}
		p.Paint(&l, 1280, 800)
		first := painter.Paint(&l, 1)
		sum := append([]byte(nil), first.Pix...)
		p.Paint(&l, 1280, 800)
		second := painter.Paint(&l, 1)
		n := 0
		for k := range sum {
			if sum[k] != second.Pix[k] {
				n++
			}
		}
		if n > 0 {
			t.Errorf("%s: painted twice from the same state, %d bytes differ", scene, n)
		}
	}
}

// What the layout of a picture leaves to the garbage collector in the steady state. The painter below it allocates
// nothing (scenes/present/raster); the layout joins texts, though it writes no number twice (scenes/present/words). The
// limit is a fence against a leak, not an aim: it takes 32 to 210 small texts a picture.
func TestLayoutAllocatesLittle(t *testing.T) {
	if raceDetector {
		t.Log("under the race detector allocations are others")
		return
	}
	p := start(t, "functional")
	turn(t, p, shortening, 12)
	settle(p)
	const most = 300
	for i, scene := range p.Scenes() {
		key(p, input.Key(fmt.Sprint(i+1)), 0)
		var l draw.List
		for range 3 {
			p.Tick(0)
			p.Paint(&l, 1280, 800)
		}
		n := testing.AllocsPerRun(5, func() { p.Paint(&l, 1280, 800) })
		t.Logf("%s: %.0f allocations a picture", scene, n)
		if n > most {
			t.Errorf("%s: %.0f allocations a picture, more than %d", scene, n, most)
		}
	}
}

// What the window keeps of the last picture is what a whole picture would show, to the last bit, and not everything is
// painted again: a slider being dragged, the pointer over a button, another scene and back.
func TestKeptPartsOfTheScreen(t *testing.T) {
	p := start(t, "functional")
	partial, whole := raster.New(1), raster.New(1)
	partial.Partial = true
	var l draw.List
	shares := []float64{}
	for i, deed := range []func(){
		func() {}, func() { turn(t, p, shortening, 12) }, func() { settle(p) }, func() { turn(t, p, shortening, 12.5) }, func() { settle(p) },
		func() { p.Handle(input.Event{Kind: input.Move, X: 60, Y: 20}) }, func() { key(p, "3", 0) }, func() { key(p, "1", 0) }, func() {},
	} {
		deed()
		p.Tick(0)
		p.Paint(&l, 1024, 768)
		got, want := partial.Paint(&l, 1), whole.Paint(&l, 1)
		for k := range want.Pix {
			if got.Pix[k] != want.Pix[k] {
				t.Fatalf("deed %d: byte %d is %d, in a whole picture %d", i, k, got.Pix[k], want.Pix[k])
			}
		}
		area := 0
		for _, r := range partial.Fresh() {
			area += r.Dx() * r.Dy()
		}
		shares = append(shares, float64(area)/1024/768)
	}
	t.Logf("shares painted: %.2f", shares)
	if shares[0] != 1 || shares[3] > 0.75 || shares[3] == 0 || shares[8] != 0 {
		t.Errorf("shares painted: %.2f; the first picture is whole, a dragged slider changes part of it, nothing changes none of it", shares)
	}
}
