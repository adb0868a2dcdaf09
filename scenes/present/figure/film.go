package figure

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"io"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
)

// Film makes a GIF a slice at a time, so that a screen does not stand still: Add each frame, then call Pack until it says
// that nothing is left, then Write. The same frames give the same bytes. Use NewFilm.
type Film struct {
	stamp      Stamp
	scale      float64
	hundredths int
	painter    raster.Painter
	w, h       int
	frames     [][]uint16 // a cell of the histogram per pixel
	count      histogram
	palette    color.Palette
	match      *matcher
	packed     int
	last       *image.Paletted
	blocks     bytes.Buffer
	header     []byte
}

// mostFilm is how many pixels a film may have in all, so that it fits into a page's memory. Chosen: two bytes each.
const mostFilm = 120e6

// NewFilm begins a film whose frames are each shown for hundredths/100 s, and which loops for ever.
func NewFilm(hundredths int, s Stamp, o Options) (*Film, error) {
	scale, err := o.scale()
	if err != nil {
		return nil, err
	}
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if hundredths < 1 || o.Transparent {
		return nil, fmt.Errorf("figure: a GIF needs at least 1/100 s a frame (got %d) and a background", hundredths)
	}
	return &Film{stamp: s, scale: scale, hundredths: hundredths, painter: raster.Painter{Quality: raster.Still}}, nil
}

// Add paints one more frame. All must have one size.
func (f *Film) Add(l *draw.List) error {
	list, err := stamped(l, f.stamp)
	if err != nil {
		return err
	}
	list.Background.A = 255
	m := f.painter.Paint(list, f.scale)
	size := m.Rect.Size()
	switch {
	case len(f.frames) == 0:
		f.w, f.h = size.X, size.Y
	case size.X != f.w || size.Y != f.h:
		return fmt.Errorf("figure: frame %d is %v, the first (%d,%d); all must have one size", len(f.frames), size, f.w, f.h)
	}
	if float64(len(f.frames)+1)*float64(size.X)*float64(size.Y) > mostFilm {
		return fmt.Errorf("figure: %d frames of %d by %d pixels are too many for one film; use fewer or smaller ones", len(f.frames)+1, f.w, f.h)
	}
	cells := make([]uint16, size.X*size.Y)
	for k := range cells {
		c := bin(m.Pix[4*k], m.Pix[4*k+1], m.Pix[4*k+2])
		cells[k] = uint16(c)
		f.count.count[c]++
	}
	f.frames = append(f.frames, cells)
	return nil
}

// Pack chooses the colours at its first call and packs one frame at each further one. It tells whether something is left.
func (f *Film) Pack() (more bool, err error) {
	switch {
	case len(f.frames) == 0:
		return false, errors.New("figure: a GIF needs at least one frame")
	case f.match == nil:
		f.palette = f.count.palette(256)
		for len(f.palette) < 2 { // the format has no table of one colour
			f.palette = append(f.palette, color.RGBA{A: 255})
		}
		f.match = newMatcher(f.palette)
		return true, nil
	case f.packed == len(f.frames):
		return false, nil
	}
	full := image.NewPaletted(image.Rect(0, 0, f.w, f.h), f.palette)
	for k, c := range f.frames[f.packed] {
		full.Pix[k] = f.match.index(int(c))
	}
	part := changed(f.last, full)
	if err := f.encode(part); err != nil {
		return false, err
	}
	f.last, f.frames[f.packed] = full, nil
	f.packed++
	return f.packed < len(f.frames), nil
}

// encode lets image/gif write a file of this frame alone and takes its blocks: what follows the header, which is the same
// for all frames, without the trailer.
func (f *Film) encode(m *image.Paletted) error {
	var b bytes.Buffer
	g := gif.GIF{Image: []*image.Paletted{m}, Delay: []int{f.hundredths}, LoopCount: -1,
		Config: image.Config{ColorModel: f.palette, Width: f.w, Height: f.h}}
	if err := gif.EncodeAll(&b, &g); err != nil {
		return fmt.Errorf("figure: encoding the GIF: %w", err)
	}
	all := b.Bytes()
	at := 13 + 3<<(all[10]&7+1)
	f.header = append(f.header[:0], all[:at]...)
	f.blocks.Write(all[at : len(all)-1])
	return nil
}

// loop asks a reader to repeat for ever (the extension that all readers know).
var loop = "\x21\xFF\x0BNETSCAPE2.0\x03\x01\x00\x00\x00"

// Write writes the finished film with its provenance.
func (f *Film) Write(w io.Writer) error {
	if f.packed == 0 || f.packed < len(f.frames) {
		return errors.New("figure: the film is not packed")
	}
	out := append([]byte{}, f.header...)
	out = append(out, comment(f.stamp)...)
	if f.packed > 1 {
		out = append(out, loop...)
	}
	out = append(append(out, f.blocks.Bytes()...), 0x3B)
	_, err := w.Write(out)
	return err
}
