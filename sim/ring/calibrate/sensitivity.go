package calibrate

import (
	"fmt"
	"io"
	"math"

	"annuloscope/sim/ring"
	"annuloscope/sim/ring/specimen"
)

// Variation is what one change does to a 15 mm band in the functional specimen.
type Variation struct {
	Name                      string
	SeptalLateralMM, TensionN float64 // fall of the diameter; tension
	Transmitted               float64
	Status                    ring.Status
}

// Sensitivity varies one thing at a time, the anchors staying beside the same points of the annulus: offset, elevation, wall, foundation, groove, cover, anchor stations. (Blood
// pressure does not enter this package: its effect lies in the rest shape and the foundation.)
func Sensitivity(c ring.Constants) []Variation {
	shape := func(change func(*specimen.Shape)) func() *ring.Input {
		return func() *ring.Input {
			s := specimen.Functional()
			change(&s)
			return input(s, c)
		}
	}
	constants := func(change func(*ring.Constants)) func() *ring.Input {
		return func() *ring.Input {
			k := c
			change(&k)
			return input(specimen.Functional(), k)
		}
	}
	plain := shape(func(*specimen.Shape) {})
	const proximal, distal = 8, 80
	list := []struct {
		name             string
		build            func() *ring.Input
		proximal, distal float64
	}{
		{"as it is: distance 8 mm, elevation 5 mm, anchors 8 and 80 mm", plain, proximal, distal},
		{"distance 4 mm", shape(func(s *specimen.Shape) { s.Distance = 4 }), proximal, distal},
		{"distance 14 mm", shape(func(s *specimen.Shape) { s.Distance = 14 }), proximal, distal},
		{"elevation 0 mm", shape(func(s *specimen.Shape) { s.Elevation = 0 }), proximal, distal},
		{"distance 4 mm, elevation 0 mm", shape(func(s *specimen.Shape) { s.Distance, s.Elevation = 4, 0 }), proximal, distal},
		{"distance 14 mm, elevation 0 mm", shape(func(s *specimen.Shape) { s.Distance, s.Elevation = 14, 0 }), proximal, distal},
		{"elevation 10 mm", shape(func(s *specimen.Shape) { s.Elevation = 10 }), proximal, distal},
		{"atrial wall half as stiff", constants(func(k *ring.Constants) { setWall(k, k.WallMembrane/2) }), proximal, distal},
		{"atrial wall twice as stiff", constants(func(k *ring.Constants) { setWall(k, k.WallMembrane*2) }), proximal, distal},
		{"foundation half as stiff", constants(func(k *ring.Constants) { k.FoundationSeptal /= 2; k.FoundationCommissural /= 2 }), proximal, distal},
		{"foundation twice as stiff", constants(func(k *ring.Constants) { k.FoundationSeptal *= 2; k.FoundationCommissural *= 2 }), proximal, distal},
		{"sideways foundation alone half as stiff", constants(func(k *ring.Constants) { k.FoundationCommissural /= 2 }), proximal, distal},
		{"sideways foundation alone twice as stiff", constants(func(k *ring.Constants) { k.FoundationCommissural *= 2 }), proximal, distal},
		{"hold along the groove half as stiff", constants(func(k *ring.Constants) { k.GrooveTangent /= 2 }), proximal, distal},
		{"hold along the groove twice as stiff", constants(func(k *ring.Constants) { k.GrooveTangent *= 2 }), proximal, distal},
		{"annulus cord gathers twice as hard", constants(func(k *ring.Constants) { k.AnnulusCompression *= 2 }), proximal, distal},
		{"vein leaves the atrium at 200° instead of 165°", shape(func(s *specimen.Shape) { s.LeavesDeg = 200 }), proximal, distal},
		{"distal anchor 10 mm short", plain, proximal, distal - 10},
		{"distal anchor 20 mm short", plain, proximal, distal - 20},
		{"proximal anchor 10 mm further in", plain, proximal + 10, distal},
	}
	base := plain()
	var out []Variation
	var s ring.Solver
	var r ring.Result
	for _, v := range list {
		in := v.build()
		in.Band = &ring.Band{ProximalMM: beside(in, base, v.proximal), DistalMM: beside(in, base, v.distal), ShorteningMM: 15}
		s.Reset()
		s.Solve(in, &r)
		fraction, status := s.TransmittedFraction(in, &r)
		out = append(out, Variation{v.name, r.SeptalLateralLoss(), r.Band.TensionN, fraction, status})
	}
	return out
}

// beside is the station on the vein of in beside the annulus point that the given station of base lies beside.
func beside(in, base *ring.Input, station float64) float64 {
	place := func(v *ring.Vein, k int) float64 { // partner counted down from the ostium, without the jump at 0
		n := float64(len(base.Annulus.Rest))
		return math.Mod(v.Partner[0]-v.Partner[k]+n, n) + (n - v.Partner[0])
	}
	b, v := &base.Vein, &in.Vein
	k := 1
	for k < len(b.Station)-1 && b.Station[k] < station {
		k++
	}
	p := place(b, k-1) + (place(b, k)-place(b, k-1))*(station-b.Station[k-1])/(b.Station[k]-b.Station[k-1])
	j := 1
	for j < len(v.Station)-1 && place(v, j) < p {
		j++
	}
	return v.Station[j-1] + (v.Station[j]-v.Station[j-1])*(p-place(v, j-1))/(place(v, j)-place(v, j-1))
}

// WriteSensitivity prints the table.
func WriteSensitivity(w io.Writer, list []Variation) error {
	for _, v := range list {
		if _, err := fmt.Fprintf(w, "%-62s | septal-lateral −%.2f mm | %.2f N | transmitted %.2f | %v\n",
			v.Name, v.SeptalLateralMM, v.TensionN, v.Transmitted, v.Status); err != nil {
			return err
		}
	}
	return nil
}
