package lab

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Shape is a hole by its full extents in mm, Length along its longer axis.
type Shape struct{ LengthMM, WidthMM float64 }

// ShapeOf returns the extents of a polygon (mm) along its principal axes of area.
func ShapeOf(outline []r2.Vec) Shape {
	_, centre, ixx, iyy, ixy := moments(outline)
	angle := math.Atan2(2*ixy, ixx-iyy) / 2 // direction of the largest spread
	c, s := math.Cos(angle), math.Sin(angle)
	var lo, hi [2]float64
	for i, p := range outline {
		d := r2.Sub(p, centre)
		for k, v := range [2]float64{c*d.X + s*d.Y, c*d.Y - s*d.X} {
			if i == 0 || v < lo[k] {
				lo[k] = v
			}
			if i == 0 || v > hi[k] {
				hi[k] = v
			}
		}
	}
	a, b := hi[0]-lo[0], hi[1]-lo[1]
	return Shape{math.Max(a, b), math.Min(a, b)}
}

// moments returns area, centroid and central second moments ∫x², ∫y², ∫xy of a polygon of either orientation.
func moments(outline []r2.Vec) (area float64, centre r2.Vec, ixx, iyy, ixy float64) {
	if len(outline) < 3 {
		panic("lab: an outline needs three points or more")
	}
	origin := outline[0] // measured from a vertex to keep digits
	var sx, sy float64
	for i := range outline {
		p, q := r2.Sub(outline[i], origin), r2.Sub(outline[(i+1)%len(outline)], origin)
		c := r2.Cross(p, q)
		area += c / 2
		sx += c * (p.X + q.X) / 6
		sy += c * (p.Y + q.Y) / 6
		ixx += c * (p.X*p.X + p.X*q.X + q.X*q.X) / 12
		iyy += c * (p.Y*p.Y + p.Y*q.Y + q.Y*q.Y) / 12
		ixy += c * (2*p.X*p.Y + p.X*q.Y + q.X*p.Y + 2*q.X*q.Y) / 24
	}
	m := r2.Vec{X: sx / area, Y: sy / area}
	ixx, iyy, ixy = ixx-area*m.X*m.X, iyy-area*m.Y*m.Y, ixy-area*m.X*m.Y
	if area < 0 {
		area, ixx, iyy, ixy = -area, -ixx, -iyy, -ixy
	}
	return area, r2.Add(origin, m), ixx, iyy, ixy
}

// Sink is potential flow in the half space before a wall into a sink spread evenly over a line of half length
// FocalMM (0 for a point) in the wall. Its equipotential surfaces are the half spheroids with the line's ends as foci.
type Sink struct {
	FocalMM    float64
	FlowMLPerS float64
}

// SinkOf returns the sink of a hole: focal half length √(a²−b²) of its half extents.
func SinkOf(s Shape, flowMLPerS float64) Sink {
	a, b := s.LengthMM/2, s.WidthMM/2
	return Sink{math.Sqrt(math.Max(a*a-b*b, 0)), flowMLPerS}
}

// Velocity returns the components of the velocity in cm/s towards the sink, along the line and towards it, at a place
// along (mm from the middle, on the line's direction) and off (mm from the line, above 0).
func (s Sink) Velocity(along, off float64) (alongCMPS, offCMPS float64) {
	strength := s.FlowMLPerS * 1000 / (2 * math.Pi) // mm³/s per steradian of the half space
	f := s.FocalMM
	if f < 1e-6*math.Hypot(along, off) {
		r := math.Hypot(along, off)
		return strength * along / (r * r * r) / 10, strength * off / (r * r * r) / 10
	}
	far, near := math.Hypot(along+f, off), math.Hypot(along-f, off)
	scale := strength / (2 * f) / 10
	return scale * (1/near - 1/far), scale / off * ((along+f)/far - (along-f)/near)
}

func (s Sink) speed(along, off float64) float64 {
	u, v := s.Velocity(along, off)
	return math.Hypot(u, v)
}

// AliasRadius returns the distance in mm from the middle of the hole, straight out, where the speed is aliasCMPS.
// In closed form: z·√(z²+f²) = Q/(2π·Va).
func (s Sink) AliasRadius(aliasCMPS float64) float64 {
	k := s.FlowMLPerS * 1000 / (2 * math.Pi * aliasCMPS * 10) // mm²
	f2 := s.FocalMM * s.FocalMM
	return math.Sqrt(2 * k * k / (f2 + math.Sqrt(f2*f2+4*k*k)))
}

// surfaceSteps is the number of rays over a right angle for the isovelocity surface; the area's error falls with its
// square, 2e-5 for a 20×2 mm slit and 1e-4 for one of 40 mm (flow 200 mL/s, aliasing 40 cm/s).
const surfaceSteps = 200

// AliasProfile returns points of the isovelocity surface in the plane through the line (along, off; mm), from straight
// out to the line's direction. The surface is this profile turned about the line, the half before the wall.
func (s Sink) AliasProfile(aliasCMPS float64) []r2.Vec {
	points := make([]r2.Vec, surfaceSteps+1)
	reach := math.Sqrt(s.FlowMLPerS*1000/(2*math.Pi*aliasCMPS*10)) + s.FocalMM // beyond it the speed is below Va
	for i := range points {
		angle := math.Pi / 2 * float64(i) / surfaceSteps
		c, d := math.Sin(angle), math.Max(math.Cos(angle), 1e-9)
		low, high := 0.0, reach
		for range 60 {
			mid := (low + high) / 2
			if s.speed(mid*c, mid*d) > aliasCMPS {
				low = mid
			} else {
				high = mid
			}
		}
		points[i] = r2.Vec{X: low * c, Y: low * d}
	}
	return points
}

// AliasSurface returns the area in cm² of the isovelocity surface and, as a check of the integration, the flow in mL/s
// through it. Area × Va exceeds the flow where the blood crosses the surface obliquely.
func (s Sink) AliasSurface(aliasCMPS float64) (areaCM2, flowMLPerS float64) {
	points := s.AliasProfile(aliasCMPS)
	for i := 1; i < len(points); i++ {
		p, q := points[i-1], points[i]
		d := r2.Sub(q, p)
		off := (p.Y + q.Y) / 2
		ring := math.Pi * off * 2 // half a turn, both ends of the line
		areaCM2 += ring * r2.Norm(d) / 100
		u, v := s.Velocity((p.X+q.X)/2, off)
		flowMLPerS += ring / 100 * (v*d.X - u*d.Y)
	}
	return areaCM2, flowMLPerS
}
