package draw

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Scene is what a three-dimensional picture shows, in millimetres in the valve's frame.
type Scene struct {
	Surfaces []Surface
	Curves   []Curve
	Version  uint64 // changes whenever the content does
}

// Surface is a triangle mesh, shaded smoothly from its vertex normals.
type Surface struct {
	Vertices []r3.Vec
	Normals  []r3.Vec // as many as vertices; zero length means computed by the painter
	Faces    [][3]int32
	Color    Color   // used where Colors is empty
	Colors   []Color // one per vertex, for a field on the surface
	BackTint Color   // multiplies the back face when its alpha is not zero
	Flat     bool    // no shading (a field must be readable against its legend)
	Alpha    float64 // 0 counts as 1; below 1 painted after the opaque ones
}

// Curve is a polyline in space drawn with a width in logical pixels, hidden behind surfaces unless Over is set.
type Curve struct {
	Points []r3.Vec
	Closed bool
	Color  Color
	Width  float64
	Over   bool
	Dash   [2]float64
}

// Camera is an orthographic view. Azimuth and Elevation are in degrees: elevation 90 looks from the atrium straight
// down −z with x to the right and y up (the standard view, aorta at 12 o'clock); elevation 0 looks level, azimuth 0
// from −y (from the posterior wall towards the aorta), azimuth growing turns the eye towards +x.
type Camera struct {
	Centre    r3.Vec  // mm, at the middle of the rectangle
	Azimuth   float64 // degrees
	Elevation float64 // degrees, −90 to 90
	Scale     float64 // logical pixels per mm
}

// Axes returns the camera's unit vectors: right and up on the picture, and towards the eye.
func (c Camera) Axes() (right, up, eye r3.Vec) {
	a, e := c.Azimuth*math.Pi/180, c.Elevation*math.Pi/180
	eye = r3.Vec{X: math.Sin(a) * math.Cos(e), Y: -math.Cos(a) * math.Cos(e), Z: math.Sin(e)}
	right = r3.Vec{X: math.Cos(a), Y: math.Sin(a)}
	up = r3.Cross(eye, right)
	return right, up, eye
}

// Project maps a place in millimetres to logical pixels in r, and its depth: mm towards the eye.
func (c Camera) Project(r Rect, p r3.Vec) (q Point, depth float64) {
	right, up, eye := c.Axes()
	d := r3.Sub(p, c.Centre)
	return Point{
		X: r.X + r.W/2 + c.Scale*r3.Dot(d, right),
		Y: r.Y + r.H/2 - c.Scale*r3.Dot(d, up),
	}, r3.Dot(d, eye)
}
