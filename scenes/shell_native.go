//go:build !js

package scenes

import (
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"annuloscope/scenes/present"
	"annuloscope/scenes/save"
)

const onPage = false

// mostOwed is 0 as answers are computed beside the ticks: leaving some out would only show them later.
const mostOwed = 0

// shell is what differs between window and page.
type shell struct {
	folder string
	spy    string
}

func newShell(o Options) shell {
	s := shell{folder: o.SaveTo, spy: o.Spy}
	if s.spy == "" {
		s.spy = os.Getenv("ANNULOSCOPE_SPY")
	}
	return s
}

func (s *shell) start(*game)         {}
func (s *shell) tick(*game, float64) {}
func (s *shell) quits() bool         { return true }

// painted writes what a test wants to see.
func (s *shell) painted(g *game, m *image.RGBA) {
	if s.spy == "" {
		return
	}
	err := save.File(filepath.Join(s.spy, "frame.png"), func(w io.Writer) error {
		return (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(w, m)
	})
	if err == nil {
		err = save.File(filepath.Join(s.spy, "state.json"), func(w io.Writer) error {
			return json.NewEncoder(w).Encode(g.state())
		})
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "annuloscope: spying is over:", err)
		s.spy = ""
	}
}

// grant does what a window can do for a screen.
func (s *shell) grant(w present.Wish) (where string, err error) {
	switch w.Kind {
	case present.SaveFile:
		return s.save(w.Name, w.Data)
	case present.CopyText:
		return "", clipboard(w.Text)
	case present.OpenFile:
		return "", errors.New("drop the file onto the window, or name it on the command line")
	}
	return "", nil
}

// save keeps a file under a name that is still free.
func (s *shell) save(name string, data []byte) (string, error) {
	name = filepath.Base(name)
	ext := filepath.Ext(name)
	path := filepath.Join(s.folder, name)
	for i := 2; ; i++ {
		if _, err := os.Lstat(path); errors.Is(err, os.ErrNotExist) {
			break
		} else if err != nil {
			return "", fmt.Errorf("cannot write %s: %w", path, err)
		}
		path = filepath.Join(s.folder, fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ext), i, ext))
	}
	if whole, err := filepath.Abs(path); err == nil {
		path = whole
	}
	return path, save.File(path, func(w io.Writer) error { _, err := w.Write(data); return err })
}

// clipboard hands the text to the first clipboard program found.
func clipboard(text string) error {
	for _, c := range [][]string{{"wl-copy"}, {"xclip", "-selection", "clipboard"}, {"xsel", "--clipboard", "--input"}, {"pbcopy"}, {"clip.exe"}} {
		path, err := exec.LookPath(c[0])
		if err != nil {
			continue
		}
		cmd := exec.Command(path, c[1:]...)
		cmd.Stdin = strings.NewReader(text)
		if err := cmd.Run(); err == nil {
			return nil
		}
	}
	return errors.New("no clipboard program found (wl-copy, xclip, xsel, pbcopy or clip.exe)")
}
