package contour

// Numerical settings and plausibility limits. All are chosen unless a source is named.
const (
	maxKnots   = 160 // points beyond this number are averaged in equal bins along the curve
	refits     = 4   // times the parameter is moved to the feet of the points
	gridSteps  = 60  // coarse steps of the search for λ
	nearlyBest = 1.2 // a minimum of the score this much above the lowest is still taken if smoother
	denseCurve = 960 // points at which feet and landmarks are looked for

	minClosedPoints = 12
	minOpenPoints   = 4
	maxPoints       = 1_000_000
	maxChainPoints  = 4000 // unordered open curves beyond this are averaged in cells first

	// Published perimeters lie between 90 and 160 mm (anatomy.md section 1); a tenth or ten times that is a unit mistake.
	minPerimeterMM = 30.0
	maxPerimeterMM = 400.0
	minLengthMM    = 10.0 // of a vessel
	maxLengthMM    = 400.0
	roughLengthMM  = 10 * maxLengthMM // of the raw points in order, which scatter lengthens

	warnGapDeg = 30.0 // largest angle without points: warning, error
	maxGapDeg  = 90.0

	minDetail     = 6    // waves round the ring kept when extremes of height are sought: half the degrees of freedom
	maxDetail     = 60   // of the fit, within these
	minSaddleMM   = 1.0  // a ring flatter than this has no high points to find
	minDifference = 0.03 // relative difference of two lengths below which they count as alike

	// Ranges of the model shape (those of geometry.AnnulusShape) within which a measured annulus is matched.
	minDepthShare = 0.33
	maxDepthShare = 0.50
	minShare      = 0.15
	maxShare      = 0.32
	shareSteps    = 17 // steps of 0.01
)
