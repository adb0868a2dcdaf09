package geometry

// Ranges accepted by AnnulusShape.Validate. Chosen wide round the published values of anatomy.md section 1 (septal-lateral
// 22-41 mm, commissural 27-53 mm, height 3-11 mm) so that an extreme but possible annulus passes and a unit mistake fails.
const (
	minSeptalLateralMM = 12.0
	maxSeptalLateralMM = 70.0
	minCommissuralMM   = 15.0
	maxCommissuralMM   = 80.0
	maxHeightMM        = 20.0
	minDiameterRatio   = 0.45 // septal-lateral over commissural; chosen
	maxDiameterRatio   = 1.25 // chosen
	maxHeightRatio     = 0.45 // height over commissural; published means 0.08-0.20 (anatomy.md S03, M01); chosen
)

const (
	// DefaultIntertrigoneShare is the inter-trigone part of the perimeter: the posterior part is 3.33 times the
	// inter-trigone distance (anatomy.md S18, derived), 1/(1+3.33).
	DefaultIntertrigoneShare = 0.231
	minIntertrigoneShare     = 0.15 // chosen
	maxIntertrigoneShare     = 0.32 // chosen: beyond it the trigones reach the commissures

	// DefaultAnteriorDepthShare is the part of the septal-lateral diameter anterior to the line between the commissures:
	// 9/(9+15) as in the D-shape of physics.md E (two half ellipses). Chosen; no published measurement found.
	DefaultAnteriorDepthShare = 0.375
	minAnteriorDepthShare     = 0.33 // chosen: below it the saddle needed to keep z = 0 the fitted plane has extra high points
	maxAnteriorDepthShare     = 0.50 // equal halves

	// intertrigoneSagitta is how far the inter-trigone part of a D-shape bows out of its chord, as a share of the chord.
	// A circular arc of the default share bows 0.19. "Nearly straight" is anatomy; the number is chosen.
	intertrigoneSagitta = 0.06

	minFlatten = -0.2 // range of q in Annulus; chosen: A2 and P2 stay the high points above the lower end,
	maxFlatten = 0.7  // and the outline is convex below the upper end (the limit is 0.74, affine invariant)
)

// minDistanceMM is how far a vessel's centreline may lie inside the annulus; chosen, a vessel may overlap it slightly.
const minDistanceMM = -5.0

// MinimalSurface: numerical settings, all chosen; the tests measure what they give.
const (
	minimalNodes     = 129   // boundary nodes, odd; physics.md E minimal-surface rows to 5e-8 with 256 curve points
	minimalSteps     = 60    // Levenberg-Marquardt steps
	minimalTolerance = 1e-11 // gradient times perimeter over energy at which it stops
)
