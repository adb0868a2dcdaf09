// Package specimen builds plain rest shapes of annulus and vein from a few diameters, for the tests and the calibration
// of package ring. It is not a patient: sim/anatomy and geometry build those.
//
// mm; frame of DEVELOPERS.md.
package specimen

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Shape says what to build.
type Shape struct {
	Points        int     // annulus points
	SeptalLateral float64 // mm
	Commissural   float64 // mm
	Height        float64 // saddle height, mm
	AnteriorShare float64 // share of the septal-lateral diameter in front of the commissures
	FibrousShare  float64 // share of the perimeter between the trigones
	FibrousBlend  float64 // mm over which the fibrous part fades
	VeinPoints    int     // 0 for none
	VeinFromDeg   float64 // φ of the ostium
	VeinToDeg     float64 // φ of the end, below VeinFromDeg
	LeavesDeg     float64 // φ where the vein leaves the atrium
	Distance      float64 // radial, mm
	Elevation     float64 // mm
	Fine          int     // points of the outline the arc length is taken from; 0 means 20000
}

// Specimen is what was built; see ring.Input for the meaning of each field.
type Specimen struct {
	Annulus             []r3.Vec
	Fibrous             []float64
	Vein                []r3.Vec
	Station, OnAtrium   []float64
	Partner             []float64
	Distance, Elevation []float64
}

// Functional is a dilated human annulus (anatomy.md S01, mid-systole, functional regurgitation: 34 × 43 mm, height
// 5.9 mm) with a vein at 8 mm distance and 5 mm elevation (within S68: plane to plane below 7.8 mm in 61 %) whose
// ostium lies at 330° and which leaves the atrium at 165°.
func Functional() Shape {
	return Shape{Points: 128, SeptalLateral: 34, Commissural: 43, Height: 5.9, AnteriorShare: 0.38, FibrousShare: 0.25,
		FibrousBlend: 4, VeinPoints: 78, VeinFromDeg: 330, VeinToDeg: 140, LeavesDeg: 165, Distance: 8, Elevation: 5}
}

// Build makes the specimen. Anterior and posterior outlines are half ellipses; the saddle is −(height/2)·cos 2θ.
func (s Shape) Build() Specimen {
	fine := s.Fine
	if fine == 0 {
		fine = 20000
	}
	a, b1 := s.Commissural/2, s.SeptalLateral*s.AnteriorShare
	b2 := s.SeptalLateral - b1
	curve := func(t float64) r3.Vec {
		sin, cos := math.Sincos(t)
		b := b1
		if sin < 0 {
			b = b2
		}
		return r3.Vec{X: a * cos, Y: b * sin, Z: -s.Height / 2 * math.Cos(2*t)}
	}
	arc := make([]float64, fine+1)
	for k := 1; k <= fine; k++ {
		arc[k] = arc[k-1] + r3.Norm(r3.Sub(curve(2*math.Pi*float64(k)/float64(fine)), curve(2*math.Pi*float64(k-1)/float64(fine))))
	}
	// angle at which an arc length is reached
	angle := func(l float64) float64 {
		lo, hi := 0, fine
		for hi-lo > 1 {
			if m := (lo + hi) / 2; arc[m] <= l {
				lo = m
			} else {
				hi = m
			}
		}
		return 2 * math.Pi * (float64(lo) + (l-arc[lo])/(arc[lo+1]-arc[lo])) / float64(fine)
	}
	total := arc[fine]
	var out Specimen
	for i := range s.Points {
		l := total * float64(i) / float64(s.Points)
		out.Annulus = append(out.Annulus, curve(angle(l)))
		away := math.Abs(l - arc[fine/4])
		away = math.Min(away, total-away)
		out.Fibrous = append(out.Fibrous, 1/(1+math.Exp((away-s.FibrousShare*total/2)/(s.FibrousBlend/4))))
	}
	s.vein(&out, curve, arc, total)
	return out
}

// vein lays the vein outside the annulus, equally spaced in the annulus's arc length.
func (s Shape) vein(out *Specimen, curve func(float64) r3.Vec, arc []float64, total float64) {
	fine := len(arc) - 1
	lookup := func(deg float64) float64 { // arc length where the polar angle is deg
		k := 0
		for ; k < fine; k++ {
			p := curve(2 * math.Pi * float64(k) / float64(fine))
			if d := math.Atan2(p.Y, p.X) * 180 / math.Pi; math.Mod(d+360, 360) >= deg {
				break
			}
		}
		return arc[k]
	}
	from, to, leave := lookup(s.VeinFromDeg), lookup(s.VeinToDeg), lookup(s.LeavesDeg)
	for j := range s.VeinPoints {
		l := from + (to-from)*float64(j)/float64(s.VeinPoints-1)
		k := 0
		for k < fine-1 && arc[k+1] < l {
			k++
		}
		t := 2 * math.Pi * (float64(k) + (l-arc[k])/(arc[k+1]-arc[k])) / float64(fine)
		const h = 1e-4
		d := r3.Sub(curve(t+h), curve(t-h))
		n := r3.Unit(r3.Vec{X: d.Y, Y: -d.X})
		p := r3.Add(r3.Add(curve(t), r3.Scale(s.Distance, n)), r3.Vec{Z: s.Elevation})
		st := 0.0
		if j > 0 {
			st = out.Station[j-1] + r3.Norm(r3.Sub(p, out.Vein[j-1]))
		}
		out.Vein = append(out.Vein, p)
		out.Station = append(out.Station, st)
		out.OnAtrium = append(out.OnAtrium, 1/(1+math.Exp(-(l-leave)/2)))
		out.Partner = append(out.Partner, math.Mod(l/total*float64(s.Points), float64(s.Points)))
		out.Distance = append(out.Distance, s.Distance)
		out.Elevation = append(out.Elevation, s.Elevation)
	}
}
