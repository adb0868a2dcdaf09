package command

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"annuloscope/scenes/present/gallery"
	"annuloscope/scenes/save"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
)

type filmCmd struct {
	caseFlags
	planFlags
	lookFlags
	What        string  `help:"What to show: valve, cut, strip, orifices or compare." enum:"valve,cut,strip,orifices,compare" default:"valve"`
	Change      string  `help:"A number to change from picture to picture: sinus-band.shortening_mm=0:30, edge-clip.position=-0.5:0.5 or annulus.septal_lateral_mm=30:38. Without it the film shows one beat." placeholder:"PATH=FROM:TO"`
	Output      string  `short:"o" required:"" help:"Where to write: a .gif, a .zip of numbered PNG pictures, or a folder for them." placeholder:"FILE or FOLDER"`
	Frames      int     `help:"How many pictures." default:"24"`
	Hundredths  int     `help:"How long each shows, in 1/100 s; left out: the beat at its own pace, a change in three seconds." default:"0"`
	Width       int     `help:"Width in pixels at scale 1; left out: what suits the figure." default:"0"`
	Height      int     `help:"Height in pixels at scale 1." default:"0"`
	Scale       float64 `help:"1, 2 or 4." default:"1"`
	Transparent bool    `help:"Leave the background out (not in a GIF)."`
}

func (c *filmCmd) order() (gallery.Order, error) {
	o := gallery.Order{What: c.What, Scale: c.Scale, Transparent: c.Transparent, Frames: c.Frames, Hundredths: c.Hundredths,
		Width: float64(c.Width), Height: float64(c.Height), Format: gallery.ZIP}
	if strings.EqualFold(filepath.Ext(c.Output), ".gif") {
		o.Format = gallery.GIF
	}
	w, h := gallery.Size(c.What)
	if c.Width == 0 {
		o.Width = w
	}
	if c.Height == 0 {
		o.Height = h
	}
	if o.Width < 320 || o.Width > 4000 || o.Height < 240 || o.Height > 4000 {
		return o, failWith(Usage, "--width %d, --height %d: out of range; allowed: 320 to 4000 by 240 to 4000 pixels", c.Width, c.Height)
	}
	if c.Hundredths < 0 || c.Hundredths > 1000 {
		return o, failWith(Usage, "--hundredths %d: out of range; allowed: 1 to 1000", c.Hundredths)
	}
	if c.Change == "" {
		return o, nil
	}
	var err error
	o.Knob, o.From, o.To, err = parseChange(c.Change)
	return o, err
}

// parseChange reads PATH=FROM:TO; the path is a number of the patient, or KIND.KEY of a repair.
func parseChange(text string) (knob string, from, to float64, err error) {
	bad := func(what string) error {
		return failWith(Usage, "--change %s: %s; write path=from:to, such as sinus-band.shortening_mm=0:30", text, what)
	}
	path, values, ok := strings.Cut(text, "=")
	first, second, two := strings.Cut(values, ":")
	if !ok || !two {
		return "", 0, 0, bad("not of the form path=from:to")
	}
	from, err = strconv.ParseFloat(strings.TrimSpace(first), 64)
	to, err2 := strconv.ParseFloat(strings.TrimSpace(second), 64)
	if err != nil || err2 != nil {
		return "", 0, 0, bad("not two numbers")
	}
	path = strings.TrimSpace(path)
	kind, key, _ := strings.Cut(path, ".")
	if spec, ok := repair.Find(repair.Kind(kind)); ok {
		for _, p := range spec.Parameters {
			if p.Key == key {
				return "repair/" + kind + "/" + key, from, to, nil
			}
		}
		return "", 0, 0, bad("a " + kind + " has no number of that name")
	}
	if _, ok := anatomy.Find(path); !ok {
		return "", 0, 0, anatomy.Unknown(path)
	}
	return "anatomy/" + path, from, to, nil
}

func (c *filmCmd) Run(s *Streams) error {
	o, err := c.order()
	if err != nil {
		return err
	}
	if err := c.lookFlags.usage(); err != nil {
		return err
	}
	cs, err := c.load()
	if err != nil {
		return err
	}
	p, err := c.open(s, cs)
	if err != nil {
		return err
	}
	if c.What == gallery.Compare {
		plans, err := c.plans(cs, c.Language)
		if err != nil {
			return err
		}
		p.Desk().S.SetPlans(plans)
	}
	data, err := c.file(p, o, warmRunner)
	if err != nil {
		return err
	}
	if ending := strings.ToLower(filepath.Ext(c.Output)); ending == ".gif" || ending == ".zip" {
		return written(s, p, c.Output, data)
	}
	n, err := unpack(data, c.Output)
	if err != nil {
		return failWith(Failed, "writing %s: %w", c.Output, err)
	}
	fmt.Fprintf(s.Err, "wrote %d pictures and about.txt to %s\n", n, c.Output)
	return nil
}

// unpack writes the pictures of an archive into a folder, which must be new or empty, and returns how many.
func unpack(archive []byte, folder string) (n int, err error) {
	entries, err := os.ReadDir(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(folder, 0o755); err != nil {
			return 0, err
		}
	case err != nil:
		return 0, err
	case len(entries) > 0:
		return 0, errors.New("the folder is not empty; name a new one")
	}
	z, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	if err != nil {
		return 0, err
	}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			return n, err
		}
		err = save.File(filepath.Join(folder, filepath.Base(f.Name)), func(w io.Writer) error {
			_, err := io.Copy(w, r)
			return err
		})
		r.Close()
		if err != nil {
			return n, err
		}
		if strings.HasSuffix(f.Name, ".png") {
			n++
		}
	}
	return n, nil
}
