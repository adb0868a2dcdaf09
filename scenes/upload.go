package scenes

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"
)

// mostPieces: above so many changed rectangles the whole picture goes to the graphics card. Chosen: each is a call into
// the driver, which in a browser costs about as much as a hundred thousand pixels.
const mostPieces = 24

// texture is the picture on the graphics card.
type texture struct {
	image *ebiten.Image
	piece []byte
}

// put hands the changed rectangles of a picture over.
func (t *texture) put(m *image.RGBA, changed []image.Rectangle) {
	if size := m.Rect.Size(); t.image == nil || t.image.Bounds().Size() != size {
		if t.image != nil {
			t.image.Deallocate()
		}
		t.image = ebiten.NewImage(size.X, size.Y)
		changed = []image.Rectangle{m.Rect}
	}
	if len(changed) > mostPieces {
		t.image.WritePixels(m.Pix)
		return
	}
	for _, r := range changed {
		if r == m.Rect {
			t.image.WritePixels(m.Pix)
			return
		}
		t.image.SubImage(r).(*ebiten.Image).WritePixels(t.cut(m, r))
	}
}

// cut copies a rectangle of a picture into one piece, valid until the next.
func (t *texture) cut(m *image.RGBA, r image.Rectangle) []byte {
	t.piece = t.piece[:0]
	for y := r.Min.Y; y < r.Max.Y; y++ {
		at := m.PixOffset(r.Min.X, y)
		t.piece = append(t.piece, m.Pix[at:at+4*r.Dx()]...)
	}
	return t.piece
}
