package valve

const (
	// bondDepthMM is how much of the leaflets a clip or stitch lays together, from the margin. A clip holds more along its
	// arms, folded. Chosen: with 6 mm the bond takes up leaflet that a wide annulus needs and pulls with 8 N.
	bondDepthMM        = 3.0
	calcifiedStiffness = 10.0 // factor on membrane and bending stiffness of a fully calcified stretch; chosen

	// shellTrusted is the share of the line, from its middle, on which the shell's overlap does not depend on how the state
	// was reached; beyond it the mean from shellInside to shellTrusted is taken. Found by trial: up to 0.3 warm and cold
	// solves of the functional case under a band of 2.5 to 12.5 mm differ by at most 0.05 mm; from 0.4 outwards its wide
	// annulus has two states of rest, 2 mm of contact or 3 mm apart.
	shellInside, shellTrusted = 0.15, 0.3

	// More tissue than the shell's own default at the commissures and along the margin, so that a wide annulus closes
	// there. Found by trial on the built-in cases.
	shellCommissure, shellMargin = 1.25, 1.05

	// The shell's chords: slack of the basal ones, which hold the belly, and first guesses of how far the closed margin is
	// held below the coaptation and how far below that the chords branch. Found by trial on the built-in cases: with these
	// their tenting areas and openings come out near the sections'.
	shellBasalSlackMM = -1.0
	shellLineBelowMM  = 2.0
	shellBranchMM     = 4.4

	// The fit of the shell to the sections' baseline: misfit of depth and mean overlap (mm) and opening (share) at which it
	// ends, its rounds, its steps and the range it may move in. Chosen.
	shellFitMM, shellFitShare           = 0.1, 0.04
	shellFitRounds, shellFitOpenings    = 8, 3
	growthStep, growthLow, growthHigh   = 0.08, 0.7, 1.6
	lineStepMM, lineLowMM, lineHighMM   = 2.5, -5.0, 40.0
	shellBranchLowMM, shellBranchHighMM = 0.0, 18.0
	// shellOpeningPerMM is by how much of the measured opening the shell's grows per mm that the chords branch deeper;
	// measured on the built-in cases.
	shellOpeningPerMM = 0.06

	// Balances of the shell: ring and shell (N on a node; the ring yields about 3 mm/N), circulation and shell (mmHg), and
	// their rounds. Looser than the sections' because the shell itself stops at 0.002 mm. Chosen.
	shellToleranceN, shellRounds   = 0.01, 8
	shellSwing                     = 0.5 // of the sections' pull, by which a secant may leave the plain round
	shellPressureMMHg, shellPasses = 0.3, 4

	// Below this tension (N) of the sections' clips the shell's is not compared with it, and the shell's is taken to be at
	// most this many times theirs. Chosen; guards of a quotient.
	shellLeastN, shellMostPull = 0.1, 3.0

	// The picture of the closed shell (part): gaps up to contactShare × the thickness are contact (sim/leaflet); above the
	// closest place the leaflets are drawn apart less and less, over partReachMM; gaps below about partBlendMM are not
	// drawn. Chosen.
	contactShare             = 1.1
	partReachMM, partBlendMM = 5.0, 0.2

	// diastolicMMHg is the mid-diastolic difference under which the shell stands open: inside the E-wave gradients of
	// physics.md C2, and that of the tests of sim/leaflet. Chosen.
	diastolicMMHg = 4.0
)

// shellSlopes are the changes of depth and mean overlap (mm) per growthStep and per lineStepMM, with which the fit starts;
// measured on the built-in cases.
var shellSlopes = [2][2]float64{{-0.5, 2.2}, {1.1, -2.0}}
