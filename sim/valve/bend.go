package valve

import (
	"math"

	"annuloscope/sim/ring"
)

// bendSoftMM is the distance over which an anchor passes a bend: the slack comes in without a jump. Chosen.
const bendSoftMM = 1.0

// bendSlack is the tether length used up where it cuts an abrupt bend of the vein between the anchors, mm: clearance ×
// angle, the same geometry by which sim/ring reckons the vein's smooth curve. The bend itself is not in the vein's smooth
// centreline.
func (b *baseline) bendSlack(p *plan) float64 {
	v := b.patient.Sinus
	if p.band == nil || v.BendDeg == 0 {
		return 0
	}
	clearance := math.Max(0, b.shape.radiusAt(&b.patient, v.BendMM)-bandRadiusMM)
	return clearance * v.BendDeg * math.Pi / 180 * softBox(v.BendMM, p.proximal, p.distal, bendSoftMM)
}

// bent is the plan's band with the slack of the bend.
func (b *baseline) bent(p *plan) *ring.Band {
	slack := b.bendSlack(p)
	if slack == 0 {
		return p.band
	}
	band := *p.band
	band.SlackMM += slack
	return &band
}
