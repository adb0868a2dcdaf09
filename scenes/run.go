package scenes

import (
	"errors"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"

	"annuloscope/scenes/pace"
	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/raster"

	"github.com/hajimehoshi/ebiten/v2"
)

// ErrNoDisplay tells that no window can be opened here: no display, no X11 library or no usable graphics.
var ErrNoDisplay = errors.New("no display")

// Options of Run. The zero value is a window of 1280 by 800.
type Options struct {
	Title         string
	Width, Height int // logical pixels; zero means 1280 and 800
	// Events, if set, hands over scripted events at each tick (now in seconds since the start), for the bench command.
	Events func(now float64) []input.Event
	// Drive, if set, moves a control by itself.
	Drive *Drive
	// Done, if set, is asked at each tick whether to end.
	Done func() bool
	// Times, if set, collects the times from input to the submitted pictures.
	Times *pace.Times
	// SaveTo is the folder for files that the screen wants kept; empty means the current one.
	SaveTo string
	// Spy, if set, is a folder into which every painted picture is written as frame.png and the state as state.json;
	// for tests. Empty means the environment variable ANNULOSCOPE_SPY.
	Spy string
}

// threads: goroutines that paint a scene natively. Chosen: the second one helps (see the benchmarks of raster), more
// would compete with the solver.
const threads = 2

// collectAt is the growth of the heap, in per cent, at which the window's garbage is collected. Go's 100 lets the garbage
// of the solvers grow to twice what is in use: 225 MB at the peak under Xvfb against 204 MB at 50, for 1 % of a processor.
const collectAt = 50

// Run opens the window (in a browser: takes over the page) and runs the screen until it is closed. Without a display it
// returns an error that wraps ErrNoDisplay and says why. It must be called from the main goroutine, once.
func Run(screen present.Screen, o Options) (err error) {
	if err := display(); err != nil {
		return err
	}
	if o.Width == 0 || o.Height == 0 {
		o.Width, o.Height = 1280, 800
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(collectAt)
	}
	n := min(threads, runtime.NumCPU())
	if runtime.GOOS == "js" {
		n = 1
	}
	g := &game{screen: screen, options: o, painter: raster.New(n), shell: newShell(o)}
	g.painter.Partial = true
	defer g.painter.Close()
	// Whatever goes wrong before the first picture means that there is no usable display.
	defer func() {
		if r := recover(); r != nil {
			if g.shown {
				panic(r)
			}
			err = fmt.Errorf("%w: %v", ErrNoDisplay, r)
		}
	}()
	ebiten.SetWindowSize(o.Width, o.Height)
	ebiten.SetWindowTitle(o.Title)
	ebiten.SetWindowResizingMode(ebiten.WindowResizingModeEnabled)
	ebiten.SetWindowSizeLimits(640, 480, -1, -1)
	ebiten.SetScreenClearedEveryFrame(false)
	ebiten.SetRunnableOnUnfocused(true)
	g.shell.start(g)
	err = ebiten.RunGameWithOptions(g, &ebiten.RunGameOptions{X11ClassName: "Annuloscope", X11InstanceName: "annuloscope"})
	if err != nil && !g.shown {
		err = fmt.Errorf("%w: %v", ErrNoDisplay, err)
	}
	return err
}
