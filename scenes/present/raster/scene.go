package raster

import (
	"image"
	"math"
	"slices"

	"annuloscope/scenes/present/draw"

	"gonum.org/v1/gonum/spatial/r3"
)

// vertex is a vertex on the picture: pixels, depth in mm towards the eye, and its lit colour (0-255, times 65536)
// seen from the front and from the back.
type vertex struct {
	x, y, z     float32
	front, back [3]int32
}

// triangle refers to three vertices; top and bottom are the rows it touches.
type triangle struct {
	a, b, c     int32
	top, bottom int32
	back        bool
	alpha       uint8
	depth       float32 // of its middle, for sorting transparent ones
}

// solid is a scene made ready for painting: everything that does not depend on the band.
type solid struct {
	w, h     int // samples
	vertices []vertex
	opaque   []triangle
	glass    []triangle
	order    []uint64 // of the glass, far to near: depth in the high half, index in the low
	segments []segment
	curves   []curve
	normals  []r3.Vec
	path     []node
}

// view maps millimetres to samples.
type view struct {
	right, up, eye r3.Vec
	centre         r3.Vec
	cx, cy, scale  float64
}

func (v *view) project(q r3.Vec) (x, y, z float64) {
	d := r3.Sub(q, v.centre)
	return v.cx + v.scale*r3.Dot(d, v.right), v.cy - v.scale*r3.Dot(d, v.up), r3.Dot(d, v.eye)
}

// prepare projects and lights the scene of op for a picture covering box (pixels), with k samples along a pixel.
func (s *solid) prepare(op *draw.Op, box image.Rectangle, scale, k float64) {
	s.w, s.h = int(math.Ceil(float64(box.Dx())*k)), int(math.Ceil(float64(box.Dy())*k))
	v := view{centre: op.Camera.Centre, scale: op.Camera.Scale * scale * k,
		cx: ((op.Rect.X+op.Rect.W/2)*scale - float64(box.Min.X)) * k,
		cy: ((op.Rect.Y+op.Rect.H/2)*scale - float64(box.Min.Y)) * k}
	v.right, v.up, v.eye = op.Camera.Axes()
	s.vertices, s.opaque, s.glass = s.vertices[:0], s.opaque[:0], s.glass[:0]
	for i := range op.Scene.Surfaces {
		s.surface(&op.Scene.Surfaces[i], &v)
	}
	s.order = s.order[:0]
	for i := range s.glass {
		s.order = append(s.order, sortKey(s.glass[i].depth)<<32|uint64(i))
	}
	slices.Sort(s.order)
	s.segments, s.curves = s.segments[:0], s.curves[:0]
	for i := range op.Scene.Curves {
		s.curve(&op.Scene.Curves[i], &v, scale*k)
	}
}

// sortKey maps a number to bits that sort like it.
func sortKey(v float32) uint64 {
	b := math.Float32bits(v)
	if b>>31 != 0 {
		return uint64(^b)
	}
	return uint64(b | 1<<31)
}

// surface adds one mesh.
func (s *solid) surface(m *draw.Surface, v *view) {
	base := int32(len(s.vertices))
	normals := m.Normals
	if len(normals) != len(m.Vertices) {
		normals = s.average(m)
	}
	back := [3]float64{1, 1, 1}
	if m.BackTint.A != 0 {
		back = [3]float64{float64(m.BackTint.R) / 255, float64(m.BackTint.G) / 255, float64(m.BackTint.B) / 255}
	}
	field := len(m.Colors) == len(m.Vertices)
	for i, q := range m.Vertices {
		x, y, z := v.project(q)
		c := m.Color
		if field {
			c = m.Colors[i]
		}
		f, b := 1.0, 1.0
		if !m.Flat {
			f, b = light(normals[i], v)
		}
		s.vertices = append(s.vertices, vertex{x: float32(x), y: float32(y), z: float32(z),
			front: [3]int32{lit(c.R, f), lit(c.G, f), lit(c.B, f)},
			back:  [3]int32{lit(c.R, b*back[0]), lit(c.G, b*back[1]), lit(c.B, b*back[2])}})
	}
	alpha := uint8(255)
	if m.Alpha > 0 && m.Alpha < 1 {
		alpha = uint8(m.Alpha*255 + 0.5)
	}
	sign := winding(m, normals)
	for _, f := range m.Faces {
		t := triangle{a: base + f[0], b: base + f[1], c: base + f[2], alpha: alpha}
		if !s.place(&t, sign) {
			continue
		}
		if alpha == 255 {
			s.opaque = append(s.opaque, t)
		} else {
			s.glass = append(s.glass, t)
		}
	}
}

// place finds the rows and the side of a triangle and tells whether it can be seen.
func (s *solid) place(t *triangle, sign float64) bool {
	a, b, c := &s.vertices[t.a], &s.vertices[t.b], &s.vertices[t.c]
	area := (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)
	top, bottom := range3(a.y, b.y, c.y)
	left, right := range3(a.x, b.x, c.x)
	const far = 1 << 20 // also drops what is not a number
	if !(area != 0 && top > -far && bottom < far && left > -far && right < far) {
		return false
	}
	if bottom <= 0 || right <= 0 || top >= float32(s.h) || left >= float32(s.w) {
		return false
	}
	t.top, t.bottom = max(int32(top), 0), int32(bottom)
	// y runs down on the picture, so an outward face, counter-clockwise from outside, has a negative area here.
	t.back = float64(area)*sign > 0
	t.depth = (a.z + b.z + c.z) / 3
	return true
}

// winding returns 1 if the faces run counter-clockwise seen from where the normals point, −1 otherwise.
func winding(m *draw.Surface, normals []r3.Vec) float64 {
	sum := 0.0
	for i := 0; i < len(m.Faces) && i < 64; i++ {
		f := m.Faces[i]
		sum += r3.Dot(cross(m, f), r3.Add(normals[f[0]], r3.Add(normals[f[1]], normals[f[2]])))
	}
	if sum < 0 {
		return -1
	}
	return 1
}

func cross(m *draw.Surface, f [3]int32) r3.Vec {
	a := m.Vertices[f[0]]
	return r3.Cross(r3.Sub(m.Vertices[f[1]], a), r3.Sub(m.Vertices[f[2]], a))
}

// average computes vertex normals as the area-weighted mean of the faces round them. It is used up before the next.
func (s *solid) average(m *draw.Surface) []r3.Vec {
	n := len(m.Vertices)
	if n > cap(s.normals) {
		s.normals = make([]r3.Vec, n)
	}
	s.normals = s.normals[:n]
	clear(s.normals)
	for _, f := range m.Faces {
		d := cross(m, f)
		for _, i := range f {
			s.normals[i] = r3.Add(s.normals[i], d)
		}
	}
	for i, d := range s.normals {
		if l := r3.Norm(d); l > 0 {
			s.normals[i] = r3.Scale(1/l, d)
		}
	}
	return s.normals
}

// lit scales a colour value by a light of at most about 1, adds a half for rounding, and keeps it clear of the ends,
// so that interpolation cannot leave a byte.
func lit(c uint8, f float64) int32 {
	v := float64(c) * f
	if v > 255.25 {
		v = 255.25
	}
	return int32((v + 0.5) * 65536)
}

// The directions of the lamps: right, up, towards the eye.
var (
	keyDir  = r3.Unit(r3.Vec{X: -0.45, Y: 0.60, Z: 0.75})
	fillDir = r3.Unit(r3.Vec{X: 0.75, Y: -0.15, Z: 0.55})
)

// light returns how bright a place with normal n is, seen from the front and from the back. Colours of fields reach
// their full value where a surface faces the lamps.
func light(n r3.Vec, v *view) (front, back float64) {
	e := r3.Vec{X: r3.Dot(n, v.right), Y: r3.Dot(n, v.up), Z: r3.Dot(n, v.eye)}
	return lamps(e), lamps(r3.Scale(-1, e))
}

func lamps(n r3.Vec) float64 {
	l := ambient + keyLight*soft(r3.Dot(n, keyDir)) + filling*soft(r3.Dot(n, fillDir))
	away := 1 - n.Z
	if n.Z < 0 {
		away = 1
	} else if away < 0 {
		away = 0
	}
	return l * (1 - rimShare*away*away)
}

// soft is the cosine of the light's angle, reaching round the edge.
func soft(d float64) float64 {
	if d < -wrap {
		return 0
	}
	return (d + wrap) / (1 + wrap)
}
