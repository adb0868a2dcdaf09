package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Marks are the positions of the four landmarks on a closed polyline, as fractional indices: 2.25 lies a quarter of the
// way from point 2 to point 3. They stay with the tissue when the curve deforms.
type Marks struct {
	PosteromedialCommissure, A2, AnterolateralCommissure, P2 float64
}

// MarksOf returns the fractional indices of the landmarks of a on the polyline a.CurveTo(n points).
func (a *Annulus) MarksOf(n int) Marks {
	per := float64(n) / a.LengthMM()
	return Marks{
		A2:                      a.ArcOf(math.Pi/2) * per,
		AnterolateralCommissure: a.ArcOf(math.Pi) * per,
		P2:                      a.ArcOf(3*math.Pi/2) * per,
	}
}

// IndexAtPhi returns the fractional index at which the closed curve, seen along −z, crosses the ray from the origin at
// angle phi, or NaN when no segment crosses it. Where several do, the outermost counts.
func IndexAtPhi(curve []r3.Vec, phi float64) float64 {
	s, c := math.Sincos(phi)
	best, at := math.Inf(-1), math.NaN()
	for i := range curve {
		p, q := curve[i], curve[(i+1)%len(curve)]
		cp, cq := c*p.Y-s*p.X, c*q.Y-s*q.X // across the ray
		if (cp < 0) == (cq < 0) && cp != 0 {
			continue
		}
		f := 0.0
		if cp != cq {
			f = cp / (cp - cq)
		}
		along := c*(p.X+f*(q.X-p.X)) + s*(p.Y+f*(q.Y-p.Y))
		if along > 0 && along > best {
			best, at = along, math.Mod(float64(i)+f, float64(len(curve)))
		}
	}
	return at
}

// AtIndex returns the point of a closed curve at a fractional index, by the cubic through the four nearest points, which
// for a smooth, evenly spaced curve is exact to the fourth power of the spacing.
func AtIndex(curve []r3.Vec, index float64) r3.Vec {
	n := len(curve)
	i := int(math.Floor(index))
	f := index - float64(i)
	i = ((i % n) + n) % n
	if f == 0 {
		return curve[i]
	}
	w := [4]float64{-f * (f - 1) * (f - 2) / 6, (f + 1) * (f - 1) * (f - 2) / 2, -(f + 1) * f * (f - 2) / 2, (f + 1) * f * (f - 1) / 6}
	var p r3.Vec
	for k, wk := range w {
		p = r3.Add(p, r3.Scale(wk, curve[(i+k-1+n)%n]))
	}
	return p
}

// Measures are the numbers one reads off an annulus.
type Measures struct {
	SeptalLateralMM  float64 // |A2 − P2| along y
	CommissuralMM    float64 // distance between the commissures
	PerimeterMM      float64 // 3D length of the polygon
	ProjectedAreaMM2 float64 // area projected along the normal of the least-squares plane
	HeightMM         float64 // extent along the normal of the least-squares plane
	HeightRatio      float64 // HeightMM / CommissuralMM
	NonplanarityDeg  float64 // angle A2 – midpoint of the commissures – P2; 180 is flat
}

// Measure reads the measures off a closed curve of evenly spaced points in the standard frame. No allocation. The
// polygon falls short of a smooth curve by (π/n)²/6 in perimeter and about (2π/n)²/6 in area, relatively.
func Measure(curve []r3.Vec, m Marks) Measures {
	plane := FitPlane(curve)
	a2, p2 := AtIndex(curve, m.A2), AtIndex(curve, m.P2)
	pm, al := AtIndex(curve, m.PosteromedialCommissure), AtIndex(curve, m.AnterolateralCommissure)
	out := Measures{
		SeptalLateralMM:  math.Abs(a2.Y - p2.Y),
		CommissuralMM:    r3.Norm(r3.Sub(pm, al)),
		PerimeterMM:      Perimeter(curve),
		ProjectedAreaMM2: ProjectedArea(curve, plane.Normal),
		HeightMM:         Extent(curve, plane),
	}
	out.HeightRatio = out.HeightMM / out.CommissuralMM
	mid := r3.Scale(0.5, r3.Add(pm, al))
	u, v := r3.Sub(a2, mid), r3.Sub(p2, mid)
	out.NonplanarityDeg = math.Atan2(r3.Norm(r3.Cross(u, v)), r3.Dot(u, v)) * 180 / math.Pi
	return out
}

// Extent returns how far a closed curve reaches along the plane's normal, highest minus lowest point in mm. Each extreme
// is refined by the parabola through the extreme point and its neighbours.
func Extent(curve []r3.Vec, plane Plane) float64 {
	hi, lo := 0, 0
	zhi, zlo := math.Inf(-1), math.Inf(1)
	for i, p := range curve {
		z := plane.Height(p)
		if z > zhi {
			hi, zhi = i, z
		}
		if z < zlo {
			lo, zlo = i, z
		}
	}
	n := len(curve)
	refine := func(i int) float64 {
		a, b, c := plane.Height(curve[(i+n-1)%n]), plane.Height(curve[i]), plane.Height(curve[(i+1)%n])
		d := a - 2*b + c
		if d == 0 {
			return b
		}
		return b - (c-a)*(c-a)/(8*d)
	}
	return refine(hi) - refine(lo)
}
