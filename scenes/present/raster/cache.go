package raster

import (
	"encoding/binary"
	"image"

	"annuloscope/scenes/present/draw"
)

// picture is a painted scene in bytes as they go into the frame, multiplied by alpha: one cell a pixel of box, or for
// a rough one, one cell for four pixels.
type picture struct {
	key      sceneKey
	quality  Quality
	box      image.Rectangle
	w        int // cells in a row
	pix      []uint8
	from, to []int32 // painted part of each row of cells; the rest of pix is not meant
	used     uint64  // the frame it was last shown in
}

// sceneKey is all that a scene's picture depends on, besides its quality.
type sceneKey struct {
	scene   *draw.Scene
	version uint64
	camera  draw.Camera
	rect    draw.Rect
	scale   float64
	box     image.Rectangle
}

type sceneCache struct {
	pictures []*picture
	job      job
	band     band
}

// scene paints a three-dimensional scene, from the cache if nothing changed.
func (p *Painter) scene(op *draw.Op, scale float64) {
	key := p.sceneKey(op, scale)
	box := key.box
	if box.Empty() || !(op.Camera.Scale > 0) {
		return
	}
	pic := p.scenes.find(key, p.Quality)
	if pic == nil {
		pic = p.scenes.room(key, p.frame)
		pic.key, pic.quality, pic.box = key, p.Quality, box
		p.solid.prepare(op, box, scale, p.Quality.samples())
		pic.size(p.solid.w, p.solid.h)
		j := &p.scenes.job
		j.scene, j.out = &p.solid, pic
		j.next.Store(0)
		if p.pool != nil {
			p.pool.run(j, &p.scenes.band)
		} else {
			j.work(&p.scenes.band)
		}
	}
	pic.used = p.frame
	p.show(pic)
}

func (p *Painter) sceneKey(op *draw.Op, scale float64) sceneKey {
	return sceneKey{op.Scene, op.Scene.Version, op.Camera, op.Rect, scale, pixels(op.Rect, scale).Intersect(p.img.Rect)}
}

// find returns a picture of at least the wanted quality, or nil.
func (c *sceneCache) find(key sceneKey, q Quality) *picture {
	for _, e := range c.pictures {
		if e.key == key && e.quality >= q {
			return e
		}
	}
	return nil
}

// room returns a picture to paint into: the outdated one of the same place if there is one, else any not shown in
// this or the last frame, else a new one.
func (c *sceneCache) room(key sceneKey, frame uint64) *picture {
	var old *picture
	for _, e := range c.pictures {
		if e.used == frame {
			continue
		}
		if e.key.scene == key.scene && e.key.rect == key.rect {
			return e
		}
		if e.used+1 < frame && (old == nil || e.used < old.used) {
			old = e
		}
	}
	if old != nil && len(c.pictures) > scenesKept {
		return old
	}
	e := &picture{}
	c.pictures = append(c.pictures, e)
	return e
}

// trim forgets pictures not shown in this frame beyond the few kept for coming back.
func (c *sceneCache) trim(frame uint64) {
	idle := 0
	for _, e := range c.pictures {
		if e.used != frame {
			idle++
		}
	}
	for idle > scenesKept {
		oldest := -1
		for i, e := range c.pictures {
			if e.used != frame && (oldest < 0 || e.used < c.pictures[oldest].used) {
				oldest = i
			}
		}
		n := len(c.pictures) - 1
		c.pictures[oldest], c.pictures[n] = c.pictures[n], nil
		c.pictures = c.pictures[:n]
		idle--
	}
}

// size makes room for a picture of w by h samples.
func (e *picture) size(w, h int) {
	if e.quality == Still {
		w, h = w/2, h/2
	}
	e.w = w
	if n := 4 * w * h; n > cap(e.pix) {
		e.pix = make([]uint8, n)
	} else {
		e.pix = e.pix[:n]
	}
	if h > cap(e.from) {
		e.from, e.to = make([]int32, h), make([]int32, h)
	}
	e.from, e.to = e.from[:h], e.to[:h]
}

// take copies a painted band into the picture, with the mean of the samples of each pixel where there are four. A band
// holds whole pixels.
func (e *picture) take(b *band) {
	if e.quality != Still {
		for row := range b.y1 - b.y0 {
			y, from, to := b.y0+row, int(b.from[row]), int(b.to[row])
			e.from[y], e.to[y] = int32(from), int32(to)
			if from >= to {
				continue
			}
			out := e.pix[4*(y*e.w+from) : 4*(y*e.w+to)]
			for i, c := range b.col[row*b.w+from : row*b.w+to] {
				binary.LittleEndian.PutUint32(out[4*i:4*i+4], c)
			}
		}
		return
	}
	for row := 0; row < b.y1-b.y0; row += 2 {
		y := (b.y0 + row) / 2
		from, to := int(min(b.from[row], b.from[row+1])/2), int(max(b.to[row], b.to[row+1])+1)/2
		e.from[y], e.to[y] = int32(from), int32(to)
		up, down := b.col[row*b.w:][:b.w], b.col[(row+1)*b.w:][:b.w]
		out := e.pix[4*y*e.w:][:4*e.w]
		for x := from; x < to; x++ {
			i := 2 * x
			p, q, r, s := up[i], up[i+1], down[i], down[i+1]
			if p != q || q != r || r != s {
				lo := p&even + q&even + r&even + s&even + 0x00020002
				hi := p>>8&even + q>>8&even + r>>8&even + s>>8&even + 0x00020002
				p = lo>>2&even | hi>>2&even<<8
			}
			binary.LittleEndian.PutUint32(out[4*x:4*x+4], p)
		}
	}
}

// show blends a picture onto the frame.
func (p *Painter) show(e *picture) {
	v := e.box.Intersect(p.clip)
	across := 1 // pixels a cell
	if e.quality < Moving {
		across = 2
	}
	for y := v.Min.Y; y < v.Max.Y; y++ {
		row := (y - e.box.Min.Y) / across
		begin, end := max(v.Min.X, e.box.Min.X+across*int(e.from[row])), min(v.Max.X, e.box.Min.X+across*int(e.to[row]))
		for _, r := range p.patch.row(y) {
			if from, to := max(begin, r.from), min(end, r.to); from < to {
				p.showRow(e, y, from, to)
			}
		}
	}
}

// showRow blends the columns from to to of one row.
func (p *Painter) showRow(e *picture, y, from, to int) {
	dst := p.img.Pix[p.img.PixOffset(from, y):][:4*(to-from)]
	if e.quality < Moving {
		row := e.pix[4*((y-e.box.Min.Y)/2)*e.w:][:4*e.w]
		for i := 0; i < len(dst); i += 4 {
			x := (from - e.box.Min.X + i/4) / 2
			blendRow(dst[i:i+4], row[4*x:4*x+4])
		}
		return
	}
	at := 4 * ((y-e.box.Min.Y)*e.w + from - e.box.Min.X)
	blendRow(dst, e.pix[at:at+len(dst)])
}

// blendRow lays pixels over others, run by run: nothing where they are clear, a copy where they are opaque.
func blendRow(dst, src []uint8) {
	for i := 3; i < len(src); i += 4 {
		switch a := src[i]; a {
		case 0:
		case 255:
			from := i - 3
			for i+4 < len(src) && src[i+4] == 255 {
				i += 4
			}
			copy(dst[from:i+1], src[from:i+1])
		default:
			d, c := dst[i-3:i+1], binary.LittleEndian.Uint32(src[i-3:i+1])
			old, keep := binary.LittleEndian.Uint32(d), 255-uint32(a)
			binary.LittleEndian.PutUint32(d, c+(div255x2(old&even*keep)|div255x2(old>>8&even*keep)<<8))
		}
	}
}
