package measured

import "math"

const (
	// A published annulus is 90 to 160 mm round (anatomy.md section 1, 3D perimeter); the range within which a unit is
	// believed is wider, and narrow enough that no two of mm, cm and m both fit. Chosen.
	leastRoundMM = 60.0
	mostRoundMM  = 250.0

	nodes      = 90  // points at which the vein is read; those of the model
	tidy       = 1.5 // a file's order counts as the curve's own when it is at most this much longer than the sorted curve; chosen
	apartMM    = 10.0
	touchingMM = 0.5  // two stretches of a vessel more than apartMM apart along it that come this near cross; chosen
	reachMM    = 30.0 // an artery farther than this from the vein's node is not beside it; chosen
	deepAngle  = 50 * math.Pi / 180
	leastDeep  = 2 // nodes under the vein that make a deep stretch
	stepShare  = 1e-4
	rounds     = 40
)
