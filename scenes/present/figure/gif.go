package figure

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"io"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
)

// GIF writes n frames as a GIF that loops for ever, each shown for hundredths/100 s. All frames must have one size.
// It has at most 256 colours, chosen from the frames themselves; Options.Transparent is an error.
func GIF(w io.Writer, n int, frame func(i int, l *draw.List), hundredths int, s Stamp, o Options) error {
	scale, err := o.scale()
	if err != nil {
		return err
	}
	if n < 1 || hundredths < 1 || o.Transparent {
		return fmt.Errorf("figure: a GIF needs at least one frame (got %d), at least 1/100 s a frame (got %d) and a background", n, hundredths)
	}
	p := raster.Painter{Quality: raster.Still}
	picture := func(i int) (*image.RGBA, error) {
		var l draw.List
		frame(i, &l)
		list, err := stamped(&l, s)
		if err != nil {
			return nil, err
		}
		list.Background.A = 255
		return p.Paint(list, scale), nil
	}
	var count histogram
	for _, i := range sampleFrames(n) {
		m, err := picture(i)
		if err != nil {
			return err
		}
		count.add(m)
	}
	palette := count.palette(256)
	match := newMatcher(palette)
	g := gif.GIF{Config: image.Config{ColorModel: palette}}
	var last *image.Paletted
	for i := range n {
		m, err := picture(i)
		if err != nil {
			return err
		}
		if i > 0 && m.Rect != last.Rect {
			return fmt.Errorf("figure: frame %d is %v, the first %v; all must have one size", i, m.Rect.Size(), last.Rect.Size())
		}
		full := image.NewPaletted(m.Rect, palette)
		for k := range full.Pix {
			full.Pix[k] = match.index(bin(m.Pix[4*k], m.Pix[4*k+1], m.Pix[4*k+2]))
		}
		g.Image = append(g.Image, changed(last, full))
		g.Delay = append(g.Delay, hundredths)
		last = full
	}
	g.Config.Width, g.Config.Height = last.Rect.Dx(), last.Rect.Dy()
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, &g); err != nil {
		return fmt.Errorf("figure: encoding the GIF: %w", err)
	}
	_, err = w.Write(withComment(b.Bytes(), s))
	return err
}

// sampleFrames returns at most eight frames, evenly spaced, from which the colours are chosen.
func sampleFrames(n int) []int {
	k := min(n, 8)
	out := make([]int, k)
	for i := range out {
		out[i] = i * n / k
	}
	return out
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

// withComment puts the provenance into a comment extension after the global colour table (GIF89a, sections 18 and 24).
func withComment(g []byte, s Stamp) []byte {
	at := 13
	if flags := g[10]; flags&0x80 != 0 {
		at += 3 << (flags&7 + 1)
	}
	out := append(append([]byte{}, g[:at]...), 0x21, 0xFE)
	text := ""
	for _, f := range s.all() {
		text += f.Name + ": " + f.Value + "\n"
	}
	for len(text) > 0 {
		k := min(len(text), 255)
		out = append(append(out, byte(k)), text[:k]...)
		text = text[k:]
	}
	return append(append(out, 0), g[at:]...)
}

// bin is the cell of a colour in the histogram: five bits a channel.
func bin(r, g, b uint8) int { return int(r>>3)<<10 | int(g>>3)<<5 | int(b>>3) }

// middle is the colour in the middle of a cell; the cells of black and white hold exactly these.
func middle(i int) color.RGBA {
	wide := func(v int) uint8 { return uint8(v<<3 | v>>2) }
	return color.RGBA{wide(i >> 10), wide(i >> 5 & 31), wide(i & 31), 255}
}
