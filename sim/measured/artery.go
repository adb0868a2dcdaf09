package measured

import (
	"math"

	"annuloscope/geometry/contour"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/fault"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// place is where the artery passes one node of the vein.
type place struct {
	node     int
	gap, psi float64
	reach    float64
}

// readArtery finds the artery beside the vein and puts its numbers into the case.
func (r *Result) readArtery(in Input, ring *contour.Annulus, vein *course) error {
	v, err := fitVessel("artery", *in.Artery, r.Unit, ring.Frame)
	if err != nil {
		return err
	}
	r.warn("artery", v.Warnings)
	r.add("artery points", "their fitted curve", v.Residuals)
	p := &r.Case.Patient
	rest, err := valve.RestOf(p)
	if err != nil {
		return err
	}
	if v.Radii != nil {
		p.Artery.DiameterMM = 2 * mean(v.Radii)
	}
	places := vein.passes(v.Points, rest.VeinRadius, p.Artery.DiameterMM/2)
	if len(places) < nodes/10 {
		return &fault.Field{Path: "artery", Problem: "hardly anywhere beside the vein", Allowed: "a course along the vein, nearer than 30 mm",
			Fix: "check that sinus and artery share one frame and one unit"}
	}
	vein.arteryAt = places
	station := func(k int) float64 { return rest.VeinStation[places[k].node] }
	first, last, deep := 0, 0, 0
	for k, q := range places {
		if math.Abs(q.psi) < deepAngle {
			if deep == 0 {
				first = k
			}
			last = k
			deep++
		}
	}
	if deep < leastDeep {
		r.Warnings = append(r.Warnings, "artery: it lies nowhere between vein and annulus")
		end := station(len(places) - 1)
		p.Artery.DeepFromMM, p.Artery.DeepToMM, p.Artery.CrossingMM = end, end, end
	} else {
		p.Artery.DeepFromMM, p.Artery.DeepToMM = station(first), station(last)
		p.Artery.SeparationMM = places[(first+last)/2].gap
	}
	p.Artery.SuperficialMM = superficial(places, p.Artery.SuperficialMM)
	if err := leastSquares(p, vein.arteryRest(places), "artery.separation_mm", "artery.superficial_mm", "artery.deep_from_mm", "artery.deep_to_mm"); err != nil {
		return err
	}
	if deep >= leastDeep {
		p.Artery.CrossingMM = p.Artery.DeepFromMM
	}
	if p.Artery.DeepToMM < p.Artery.DeepFromMM {
		p.Artery.DeepToMM = p.Artery.DeepFromMM
	}
	return nil
}

// passes finds where a curve passes through the plane of each node of the vein that holds the way to the annulus and the
// way down, and reads the tissue between the walls and the angle there.
func (c *course) passes(curve []r3.Vec, radius []float64, lumen float64) []place {
	var out []place
	for i, v := range c.points {
		heart := r3.Sub(c.beside[i], v)
		if r3.Norm(heart) < 1e-9 {
			continue
		}
		heart = r3.Unit(heart)
		aside := r3.Sub(r3.Vec{Z: -1}, r3.Scale(-heart.Z, heart))
		if r3.Norm(aside) < 1e-9 {
			continue
		}
		aside = r3.Unit(aside)
		normal := r3.Cross(heart, aside)
		inner := r3.Add(v, r3.Scale(radius[i], heart))
		best, at := reachMM, r3.Vec{}
		for k := 1; k < len(curve); k++ {
			a, b := r3.Dot(normal, r3.Sub(curve[k-1], v)), r3.Dot(normal, r3.Sub(curve[k], v))
			if a*b > 0 || a == b {
				continue
			}
			q := r3.Add(curve[k-1], r3.Scale(a/(a-b), r3.Sub(curve[k], curve[k-1])))
			if d := r3.Norm(r3.Sub(q, inner)); d < best {
				best, at = d, q
			}
		}
		if best < reachMM {
			w := r3.Sub(at, inner)
			out = append(out, place{node: i, gap: best - lumen, reach: best, psi: math.Atan2(r3.Dot(w, aside), r3.Dot(w, heart))})
		}
	}
	return out
}

// arteryRest compares the model's artery with the places: tissue in mm, and the angle as mm of arc.
func (c *course) arteryRest(places []place) func(*anatomy.Patient) ([]float64, error) {
	return func(p *anatomy.Patient) ([]float64, error) {
		r, err := valve.RestOf(p)
		if err != nil {
			return nil, err
		}
		out := make([]float64, 0, 2*len(places))
		for _, q := range places {
			k := q.node - r.ArteryFirst
			if k < 0 || k >= len(r.ArteryGap) {
				out = append(out, 0, 0)
				continue
			}
			out = append(out, r.ArteryGap[k]-q.gap, q.reach*(r.ArteryAside[k]-q.psi))
		}
		return out, nil
	}
}

func superficial(places []place, otherwise float64) float64 {
	sum, n := 0.0, 0.0
	for _, q := range places {
		if math.Abs(q.psi) >= deepAngle {
			sum, n = sum+q.gap, n+1
		}
	}
	if n == 0 {
		return otherwise
	}
	return sum / n
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
