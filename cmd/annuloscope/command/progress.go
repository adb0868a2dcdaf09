package command

import (
	"io"
	"os"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// progress returns what to call after every item and at the end. It shows count, rate and time left, and only when w is a
// terminal: a log file or a pipe gets nothing.
func progress(w io.Writer, n int, what string) (step, end func()) {
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return func() {}, func() {}
	}
	bar := progressbar.NewOptions(n, progressbar.OptionSetWriter(w), progressbar.OptionSetDescription(what),
		progressbar.OptionShowCount(), progressbar.OptionShowIts(), progressbar.OptionSetItsString(what),
		progressbar.OptionSetPredictTime(true), progressbar.OptionThrottle(200e6), progressbar.OptionClearOnFinish())
	return func() { _ = bar.Add(1) }, func() { _ = bar.Finish() } // a lost progress line costs nothing
}
