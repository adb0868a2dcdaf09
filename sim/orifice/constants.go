package orifice

// HandOver is the exponent n of the smooth combination of excursion and margin limit (dimensionless). 1.5, set once on
// the bond ratios of the leaflet shell (shell.md "Behaviour": widths 2-7 mm, margins 96-111 mm, a model, not patients).
// Larger values approach the bare minimum of both: n = 2 loses 3 points of area less to a 5 mm bond, n = 1.5 within 3.
const HandOver = 1.5

// SplitHold is the hold from which a bond divides the list of orifices. Chosen; the total does not depend on it.
const SplitHold = 0.5

// MaxBonds is the most bonds one valve takes.
const MaxBonds = 3

// Line of coaptation in diastole, seen from the atrium, as shares of the septal-lateral diameter: y = d·(lineMid +
// lineBow·(2x/c)²). Invented, for the picture only; areas do not depend on it.
const (
	lineMid = -0.12
	lineBow = 0.12
)

// loadedDepth is the share of the septal-lateral diameter whose leaflet strip hands its pressure load to the free
// margin, hence to the bonds. Chosen: half of one leaflet's half of the opening.
const loadedDepth = 0.25

// openingSpeed is the mean speed through the fully open valve, in cm/s, at which the leaflets are halfway open in
// the animation. Chosen; moves no number.
const openingSpeed = 10.0

// stationsPerStretch is the number of outline segments between two break points of an outline.
const stationsPerStretch = 24
