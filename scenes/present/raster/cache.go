package raster

import (
	"encoding/binary"
	"image"

	"annuloscope/scenes/present/draw"
)

// picture is a painted scene, in pixels multiplied by their alpha.
type picture struct {
	key     sceneKey
	quality Quality
	box     image.Rectangle
	pix     []uint32
	used    uint64 // the frame it was last shown in
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
	box := pixels(op.Rect, scale).Intersect(p.img.Rect)
	if box.Empty() || !(op.Camera.Scale > 0) {
		return
	}
	key := sceneKey{op.Scene, op.Scene.Version, op.Camera, op.Rect, scale, box}
	pic := p.scenes.find(key, p.Quality)
	if pic == nil {
		pic = p.scenes.room(key, p.frame)
		pic.key, pic.quality, pic.box = key, p.Quality, box
		n := box.Dx() * box.Dy()
		if n > cap(pic.pix) {
			pic.pix = make([]uint32, n)
		}
		pic.pix = pic.pix[:n]
		samples := 1
		if p.Quality == Still {
			samples = 2
		}
		p.solid.prepare(op, box, scale, samples)
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

// take copies a painted band into the picture, with the mean of the samples of each pixel. A band holds whole pixels.
func (e *picture) take(b *band, samples int) {
	w := e.box.Dx()
	if samples == 1 {
		copy(e.pix[b.y0*w:b.y1*w], b.col)
		return
	}
	for y := b.y0; y < b.y1; y += 2 {
		up, down := b.col[(y-b.y0)*b.w:][:b.w], b.col[(y-b.y0+1)*b.w:][:b.w]
		out := e.pix[y/2*w:][:w]
		for x := range out {
			i := 2 * x
			p, q, r, s := up[i], up[i+1], down[i], down[i+1]
			if p == q && q == r && r == s {
				out[x] = p
				continue
			}
			lo := p&even + q&even + r&even + s&even + 0x00020002
			hi := p>>8&even + q>>8&even + r>>8&even + s>>8&even + 0x00020002
			out[x] = lo>>2&even | hi>>2&even<<8
		}
	}
}

// show blends a picture onto the frame.
func (p *Painter) show(e *picture) {
	v := e.box.Intersect(p.clip)
	for y := v.Min.Y; y < v.Max.Y; y++ {
		from := (y-e.box.Min.Y)*e.box.Dx() + v.Min.X - e.box.Min.X
		src := e.pix[from : from+v.Dx()]
		at := p.img.PixOffset(v.Min.X, y)
		dst := p.img.Pix[at : at+4*len(src)]
		for i, c := range src {
			switch a := c >> 24; a {
			case 0:
			case 255:
				binary.LittleEndian.PutUint32(dst[4*i:], c)
			default:
				d := dst[4*i : 4*i+4]
				old, keep := binary.LittleEndian.Uint32(d), 255-a
				binary.LittleEndian.PutUint32(d, c+(div255x2(old&even*keep)|div255x2(old>>8&even*keep)<<8))
			}
		}
	}
}
