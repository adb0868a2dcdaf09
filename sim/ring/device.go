package ring

import "fmt"

// Band is a two-anchor band in the vein that draws its anchors together.
type Band struct {
	ProximalMM, DistalMM float64 // stations of the anchors' middles, as placed
	ShorteningMM         float64 // length pulled out of the band, ≥ 0
	TensionN             float64 // > 0: the band is held at this tension instead and ShorteningMM is not read
	SlackMM              float64 // slack of band and vein taken up before the band bites, ≥ 0 (besides Clearance)
	ProximalGripN        float64 // tension at which the anchor slips; 0 means it never does (see Grip)
	DistalGripN          float64
	State                BandState // history: what earlier solves or follow-up did to it
}

// BandState is the history of a band. The zero value is a band as placed.
type BandState struct {
	// ProximalShiftMM and DistalShiftMM are how far each anchor has moved towards the other since placement, by slip
	// (added by Solve) or by migration (set by the caller), ≥ 0.
	ProximalShiftMM, DistalShiftMM float64
	// Separated is a band that has come off an anchor: it pulls no more.
	Separated bool
}

// Rods are straight elastic rods pushed into the vein, not fixed to it.
type Rods struct {
	ProximalMM, DistalMM float64 // stations of their ends
	Count                int     // rods side by side, ≥ 0
	BendingNMM2          float64 // bending stiffness EI of one rod, N·mm²
}

// PosteriorBand is a band sewn on the annulus itself over the posterior arc.
type PosteriorBand struct {
	DownsizingPercent float64 // shortening in % of the arc under the band, ≥ 0
	ShorteningMM      float64 // > 0: the same in mm; then DownsizingPercent is not read
	TensionN          float64 // > 0: held at this tension instead
	Cover             float64 // share of the arc from trigone to trigone under the band, 0 < c ≤ 1; 0 means 1
}

// Tie is a stitch or suture straight across between two annulus points.
type Tie struct {
	A, B         int     // annulus points
	ShorteningMM float64 // ≥ 0
	TensionN     float64 // > 0: held at this tension instead
}

// FullRing is a stiff complete ring: the annulus is pulled to its shape.
type FullRing struct {
	SizeMM      float64 // commissural diameter of the ring
	Ratio       float64 // septal-lateral ÷ commissural diameter; 0 means RingRatio
	HeightShare float64 // saddle height kept, as a share of the rest annulus, 0 to 1.5
	Stiffness   float64 // share of RingSpring with which the annulus is held to the ring, 0 < s ≤ 1; 0 means 1
}

func (in *Input) checkDevices() error {
	if b := in.Band; b != nil {
		if len(in.Vein.Rest) == 0 {
			return fmt.Errorf("ring: a sinus band needs a vein; give vein.rest")
		}
		for _, f := range []struct {
			name      string
			v, lo, hi float64
		}{
			{"shortening_mm", b.ShorteningMM, 0, 120}, {"tension_n", b.TensionN, 0, 50}, {"slack_mm", b.SlackMM, 0, 60},
			{"proximal_grip_n", b.ProximalGripN, 0, 1e6}, {"distal_grip_n", b.DistalGripN, 0, 1e6},
			{"proximal_shift_mm", b.State.ProximalShiftMM, 0, 120}, {"distal_shift_mm", b.State.DistalShiftMM, 0, 120},
		} {
			if !(f.v >= f.lo && f.v <= f.hi) {
				return fmt.Errorf("ring: band.%s is %g; must lie in %g to %g", f.name, f.v, f.lo, f.hi)
			}
		}
		if !(b.DistalMM-b.ProximalMM >= in.Constants.AnchorLength) {
			return fmt.Errorf("ring: band.distal_mm %g is not beyond band.proximal_mm %g by the anchor length %g mm; move the anchors apart",
				b.DistalMM, b.ProximalMM, in.Constants.AnchorLength)
		}
		if most := 0.7 * (b.DistalMM - b.ProximalMM); b.ShorteningMM > most {
			return fmt.Errorf("ring: band.shortening_mm is %g; must be at most %.4g, 70 %% of the vein between the anchors; shorten less or move the anchors apart",
				b.ShorteningMM, most)
		}
		if last := in.Vein.Station[len(in.Vein.Station)-1]; !(b.ProximalMM >= in.Vein.Station[0] && b.DistalMM <= last) {
			return fmt.Errorf("ring: band anchors at %g and %g mm; must lie on the vein, %g to %g mm", b.ProximalMM, b.DistalMM, in.Vein.Station[0], last)
		}
	}
	if r := in.Rods; r != nil {
		if len(in.Vein.Rest) == 0 {
			return fmt.Errorf("ring: rods need a vein; give vein.rest")
		}
		if r.Count < 0 || r.Count > 20 || !(r.BendingNMM2 >= 0 && r.BendingNMM2 <= 1e6) {
			return fmt.Errorf("ring: rods: count %d (0 to 20), bending %g N·mm² (0 to 1e6)", r.Count, r.BendingNMM2)
		}
		if !(r.DistalMM > r.ProximalMM) {
			return fmt.Errorf("ring: rods.distal_mm %g must lie beyond rods.proximal_mm %g", r.DistalMM, r.ProximalMM)
		}
	}
	if p := in.Posterior; p != nil {
		if !(p.DownsizingPercent >= 0 && p.DownsizingPercent <= 60) || !(p.ShorteningMM >= 0) || !(p.TensionN >= 0) || !(p.Cover >= 0 && p.Cover <= 1) {
			return fmt.Errorf("ring: posterior band: downsizing %g %% (0 to 60), shortening %g mm (≥ 0), cover %g (0 to 1)", p.DownsizingPercent, p.ShorteningMM, p.Cover)
		}
	}
	for k, t := range in.Ties {
		if !(t.ShorteningMM >= 0 && t.ShorteningMM <= 60) || !(t.TensionN >= 0 && t.TensionN <= 50) {
			return fmt.Errorf("ring: ties[%d]: shortening %g mm (0 to 60), tension %g N (0 to 50)", k, t.ShorteningMM, t.TensionN)
		}
	}
	if f := in.FullRing; f != nil {
		if !(f.SizeMM >= 15 && f.SizeMM <= 70) || !(f.Ratio >= 0 && f.Ratio <= 1.2) || !(f.HeightShare >= 0 && f.HeightShare <= 1.5) || !(f.Stiffness >= 0 && f.Stiffness <= 1) {
			return fmt.Errorf("ring: full ring: size %g mm (15 to 70), ratio %g (0 to 1.2), height share %g (0 to 1.5), stiffness %g (0 to 1)", f.SizeMM, f.Ratio, f.HeightShare, f.Stiffness)
		}
	}
	return nil
}
