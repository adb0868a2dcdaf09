package figure

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
	"annuloscope/scenes/present/svg"
)

// Options of pixel figures.
type Options struct {
	Scale       float64 // pixels per logical pixel: 1, 2 or 4; zero counts as 1
	Transparent bool    // leave the background out (PNG only); the caption strip stays white
}

func (o Options) scale() (float64, error) {
	switch o.Scale {
	case 0:
		return 1, nil
	case 1, 2, 4:
		return o.Scale, nil
	}
	return 0, fmt.Errorf("figure: scale is %g; allowed are 1, 2 and 4", o.Scale)
}

// PNG writes the list as a PNG with its provenance in text chunks.
func PNG(w io.Writer, l *draw.List, s Stamp, o Options) error {
	m, err := Paint(l, s, o)
	if err != nil {
		return err
	}
	return Encode(w, m, s)
}

// Paint is the first half of PNG, for who does it in slices: the list with its caption strip in pixels.
func Paint(l *draw.List, s Stamp, o Options) (*image.RGBA, error) {
	return paint(new(raster.Painter), l, s, o)
}

// paint paints with p, so that a sequence keeps its buffers.
func paint(p *raster.Painter, l *draw.List, s Stamp, o Options) (*image.RGBA, error) {
	scale, err := o.scale()
	if err != nil {
		return nil, err
	}
	if o.Transparent {
		clear := *l
		clear.Background = draw.Color{}
		l = &clear
	}
	list, err := stamped(l, s)
	if err != nil {
		return nil, err
	}
	p.Quality = raster.Still
	return p.Paint(list, scale), nil
}

// pngWith paints with p and encodes.
func pngWith(p *raster.Painter, w io.Writer, l *draw.List, s Stamp, o Options) error {
	m, err := paint(p, l, s, o)
	if err != nil {
		return err
	}
	return Encode(w, m, s)
}

// Encode is the second half of PNG.
func Encode(w io.Writer, m image.Image, s Stamp) error {
	if err := s.Validate(); err != nil {
		return err
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		return fmt.Errorf("figure: encoding the PNG: %w", err)
	}
	// The text chunks go right after the header chunk: 8 bytes of signature and 25 of IHDR.
	const header = 8 + 25
	out := append([]byte{}, b.Bytes()[:header]...)
	for _, f := range s.all() {
		out = append(out, textChunk(f)...)
	}
	out = append(out, b.Bytes()[header:]...)
	_, err := w.Write(out)
	return err
}

// textChunk returns a tEXt chunk, or an iTXt chunk (UTF-8, uncompressed) where Latin-1 does not suffice.
func textChunk(f Field) []byte {
	key := f.Name
	if len(key) > 79 {
		key = key[:79]
	}
	latin := make([]byte, 0, len(f.Value))
	for _, r := range f.Value {
		if r > 255 {
			return chunk("iTXt", append([]byte(key+"\x00\x00\x00\x00\x00"), f.Value...))
		}
		latin = append(latin, byte(r))
	}
	return chunk("tEXt", append([]byte(key+"\x00"), latin...))
}

func chunk(kind string, data []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	b = append(append(b, kind...), data...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// SVG writes the list as a flat SVG with its provenance in the metadata element.
func SVG(w io.Writer, l *draw.List, s Stamp) error {
	list, err := stamped(l, s)
	if err != nil {
		return err
	}
	about := svg.About{Title: s.Title, Description: s.Alt}
	for _, f := range s.all() {
		about.Fields = append(about.Fields, svg.Field(f))
	}
	return svg.Write(w, list, about)
}
