package lab

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// NearFieldSpeed returns the speed in cm/s straight out from the centroid of a hole (outline in mm) at a distance z
// (mm) when the flow (mL/s) enters evenly over the hole: the solid angle of the hole seen from there over 2π times
// the inflow speed.
func NearFieldSpeed(outline []r2.Vec, flowMLPerS, z float64) float64 {
	area, centre, _, _, _ := moments(outline)
	inflow := flowMLPerS * 1000 / area / 10 // cm/s
	return inflow * solidAngle(outline, centre, z) / (2 * math.Pi)
}

// NearFieldRadius returns the distance in mm straight out where that speed is aliasCMPS, 0 when it is nowhere reached.
func NearFieldRadius(outline []r2.Vec, flowMLPerS, aliasCMPS float64) float64 {
	low, high := 0.0, math.Sqrt(flowMLPerS*1000/(2*math.Pi*aliasCMPS*10))*1.01
	if NearFieldSpeed(outline, flowMLPerS, 1e-6*high) < aliasCMPS {
		return 0
	}
	for range 60 {
		mid := (low + high) / 2
		if NearFieldSpeed(outline, flowMLPerS, mid) > aliasCMPS {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// solidAngle sums signed triangles from the foot point (van Oosterom and Strackee, IEEE Trans Biomed Eng 1983;30:125,
// from memory; checked in the tests against closed forms).
func solidAngle(outline []r2.Vec, foot r2.Vec, z float64) float64 {
	sum := 0.0
	a := r3.Vec{Z: -z}
	for i := range outline {
		p, q := r2.Sub(outline[i], foot), r2.Sub(outline[(i+1)%len(outline)], foot)
		b, c := r3.Vec{X: p.X, Y: p.Y, Z: -z}, r3.Vec{X: q.X, Y: q.Y, Z: -z}
		la, lb, lc := z, r3.Norm(b), r3.Norm(c)
		num := r3.Dot(a, r3.Cross(b, c))
		den := la*lb*lc + r3.Dot(a, b)*lc + r3.Dot(b, c)*la + r3.Dot(c, a)*lb
		sum += 2 * math.Atan2(num, den)
	}
	return math.Abs(sum)
}
