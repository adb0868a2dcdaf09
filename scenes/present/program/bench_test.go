package program_test

import (
	"fmt"
	"testing"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/study"
)

// The sizes of `annuloscope bench`.
var benchSizes = [][2]float64{{1024, 768}, {1280, 800}, {1920, 1080}}

// firstTier hides that an engine can refine.
type firstTier struct{ study.Engine }

// BenchmarkMove takes the way from a move of the shortening slider to the picture apart, for each size: the first answer
// (solve), the display list (layout), the pixels (paint), and all three.
func BenchmarkMove(b *testing.B) {
	for _, size := range benchSizes {
		p := program.New(program.Config{Runner: study.NewSync(firstTier{study.NewSolver()}), Cases: cases(b)})
		settle(p)
		painter := raster.New(1)
		painter.Partial = true
		var l draw.List
		at := 0
		solve := func() {
			at++
			turn(b, p, shortening, 5+0.5*float64(at%30))
			p.Tick(0)
		}
		layout := func() { p.Paint(&l, size[0], size[1]) }
		paint := func() { painter.Paint(&l, 1) }
		stages := []func(){solve, layout, paint}
		for k, name := range []string{"solve", "layout", "paint", "all"} {
			b.Run(fmt.Sprintf("%vx%v/%s", size[0], size[1], name), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					for i, f := range stages {
						switch {
						case k == i || k == len(stages):
							f()
						default:
							b.StopTimer()
							f()
							b.StartTimer()
						}
					}
				}
			})
		}
	}
}
