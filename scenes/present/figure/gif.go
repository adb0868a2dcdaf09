package figure

import (
	"bytes"
	"image"
	"image/color"
	"io"

	"annuloscope/scenes/present/draw"
)

// GIF writes n frames as a GIF that loops for ever, each shown for hundredths/100 s. All frames must have one size.
// It has at most 256 colours, chosen from the frames themselves; Options.Transparent is an error.
func GIF(w io.Writer, n int, frame func(i int, l *draw.List), hundredths int, s Stamp, o Options) error {
	f, err := NewFilm(hundredths, s, o)
	if err != nil {
		return err
	}
	for i := range n {
		var l draw.List
		frame(i, &l)
		if err := f.Add(&l); err != nil {
			return err
		}
	}
	for more := true; more; {
		if more, err = f.Pack(); err != nil {
			return err
		}
	}
	return f.Write(w)
}

// changed returns the smallest rectangle of next that differs from last (one pixel if nothing does).
func changed(last, next *image.Paletted) *image.Paletted {
	if last == nil {
		return next
	}
	var box image.Rectangle
	for y := range next.Rect.Dy() {
		a, b := last.Pix[y*last.Stride:][:next.Rect.Dx()], next.Pix[y*next.Stride:][:next.Rect.Dx()]
		if bytes.Equal(a, b) {
			continue
		}
		x0, x1 := 0, len(a)
		for a[x0] == b[x0] {
			x0++
		}
		for a[x1-1] == b[x1-1] {
			x1--
		}
		box = box.Union(image.Rect(x0, y, x1, y+1))
	}
	if box.Empty() {
		box = image.Rect(0, 0, 1, 1)
	}
	return next.SubImage(box).(*image.Paletted)
}

// comment is the provenance as a comment extension (GIF89a, section 24).
func comment(s Stamp) []byte {
	out := []byte{0x21, 0xFE}
	text := ""
	for _, f := range s.all() {
		text += f.Name + ": " + f.Value + "\n"
	}
	for len(text) > 0 {
		k := min(len(text), 255)
		out = append(append(out, byte(k)), text[:k]...)
		text = text[k:]
	}
	return append(out, 0)
}

// bin is the cell of a colour in the histogram: five bits a channel.
func bin(r, g, b uint8) int { return int(r>>3)<<10 | int(g>>3)<<5 | int(b>>3) }

// middle is the colour in the middle of a cell; the cells of black and white hold exactly these.
func middle(i int) color.RGBA {
	wide := func(v int) uint8 { return uint8(v<<3 | v>>2) }
	return color.RGBA{wide(i >> 10), wide(i >> 5 & 31), wide(i & 31), 255}
}
