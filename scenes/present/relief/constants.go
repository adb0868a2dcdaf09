package relief

// How things are drawn; all chosen by eye, none enters a number a person reads.
const (
	across       = 14   // points of a leaflet from annulus to margin
	annulusTube  = 1.1  // mm, radius of the drawn annulus
	tubeAround   = 10   // vertices round a tube
	bandRadius   = 0.9  // mm
	anchorRadius = 2.2  // mm
	clipRadius   = 1.5  // mm
	openCurve    = 0.6  // how far down the control point of an open leaflet's curve lies, share of its depth
	veinAlpha    = 0.5  // the vein is glass, so that the artery under it shows
	lighter      = 0.28 // share of white in the leaflets: they are seen in their own shade
	edgeBelow    = 0.5  // mm, how far the edge of the line lies below it on a map
	gapShown     = 0.05 // mm; narrower gaps are drawn as contact
)
