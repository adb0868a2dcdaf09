package leaflet

// Sources: shell.md = ../shared/reference/shell.md (measured on an earlier trial, tuned, not validated).
const (
	// Rest shape and chords, mm (shell.md "Rest shape"; lengths inside the ranges of anatomy.md section 2).
	defaultSL, defaultIC     = 28.0, 38.0
	defaultAnterior          = 28.0
	defaultPosterior         = 16.5
	defaultCommissure        = 9.0
	defaultMarginX           = 0.95
	defaultMarginY           = 0.90
	defaultTipX, defaultTipY = 9.0, -8.0
	defaultTipZ              = -20.0
	defaultChordSlack        = 0.5
	defaultBasalSlack        = 3.0
	defaultLineDepth         = 13.0
	defaultLineRise          = 5.0
	defaultLineY             = -7.8
	defaultLineBend          = 7.5
	defaultLineHalf          = 16.5

	defaultSystolicPressure = 120 * 133.322e-6 // N/mm²; 120 mmHg, chosen

	// Membrane, N/mm and strain (shell.md). Softer toe: more contact; stiffer after it: less stretch.
	toeStiffness  = 0.1
	postStiffness = 4.0
	toeStrain     = 0.08
	toeBlend      = 0.04
	slackFactor   = 0.1  // stiffness in compression as a fraction of the toe
	slackBlend    = 0.02 // half-width of that change
	fibreWeight   = 0.5  // per direction; four directions give isotropy, ν = 1/3, E = (4/3)·w·k
	// N·mm; plate rigidity D = 3 × this. A sheet 1.3 mm thick (anatomy.md section 2, M06) of the toe's modulus has
	// D = 0.011 N·mm, of the post-toe modulus 0.42. In diastole the fibres lie in the toe, under systolic pressure they
	// are straight: D = 0.018 open, 0.045 closed; chosen within that range. Three times as much takes a tenth of a bonded
	// opening and halves the slot of a flail.
	bendOpen   = 0.006
	bendClosed = 0.015
	bendBond   = 0.09 // inside a bond: 30 × the 0.003 of shell.md
	// The closed tissue at the commissures folds like a fan, held by chords that fan out too. Left as soft as the rest it has
	// many folds to choose from and may pass through itself there; so it is stiffer by foldFactor, fully from foldFull to the
	// commissure (|s|), not at all before foldFrom. Chosen: with 14, 10 of 150 random anatomies cross when closed, with 60
	// none. The price: less contact from |s| 0.6 outwards than soft tissue would make. In diastole, where nothing presses,
	// foldOpen is enough to keep the margin there from crossing itself.
	foldFactor, foldFrom, foldFull = 60.0, 0.6, 0.8
	foldOpen                       = 4.0

	// Contact (shell.md: coaptation and slot depend on these, so they are fixed and stated).
	contactThickness = 1.0   // mm, d̂
	contactStiffness = 0.01  // N/mm², κ
	coarseThickness  = 1.6   // factor on d̂ on the coarse mesh
	touchPower       = 8.0   // of the smooth maximum over the triangles near a vertex; chosen, written out in touches.go
	leastShare       = 0.2   // barriers below this × the largest of a vertex are left out (share 3e-6); chosen
	closestShare     = 1e-6  // of d̂: nothing comes nearer
	closestMM        = 1e-12 // mm: a vertex nearer than this lies on the triangle
	restExclusion    = 1.7   // mm: no contact between tissue closer than this at rest
	contactCount     = 1.1   // gaps up to this × d̂ count as contact

	// Chords (shell.md).
	marginalChords = 48
	chordStiffness = 3.0  // N/mm
	chordBlend     = 0.15 // mm, half-width of the slack-to-taut change
	basalRow       = 0.6  // v of the basal insertions, chosen
	basalSpread    = 0.06 // half-spread of the three strands in u and v, chosen

	// Bonds: springs on a 0.5 mm grid with a gap (shell.md).
	bondGrid      = 0.5 // mm
	bondGap       = 0.6 // mm, about the gap of pressed leaflets
	bondStiffness = 2.0 // N/mm per mm² of bond, chosen: a 25 mm² clip moves 0.05 mm at 2.5 N

	// Solver.
	dampingStart  = 0.01 // N/mm³, shell.md
	leastDamping  = 0.03 // of dampingStart, however low the pressure; chosen
	dampingFactor = 0.3
	maxStep       = 2.0   // mm per vertex and iteration
	approachLimit = 0.6   // largest part of a gap closed in one iteration
	searchRadius  = 5.0   // mm: farthest contact search; bounds the step of a cold start
	searchNear    = 2.5   // mm: vertices surely farther from any contact than this are not searched again
	searchReserve = 0.25  // mm of motion between two searches
	newtonEnough  = 0.15  // mm rms step that ends Newton on the fine mesh
	coarseEnough  = 0.30  // mm, same on the coarse mesh
	tolerance     = 0.002 // mm rms step: converged; with 0.005 the slot of a flail is 2 % off, with 0.001 nothing differs by 1 %
	pictureEnough = 0.01  // mm rms step, of Near
	andersonDepth = 6
	stallLimit    = 6   // iterations without progress before a new factor
	stallFactor   = 3.0 // rms growth before a new factor
	workSlack     = 1.2 // factor work over that of a fresh ordering before a new one; shell.md 1.35 on fill
	levelLimit    = 120 // iterations per level before the solve gives up
)

const (
	startApart   = 4.0  // mm between the margins in the cold start shape, above 1.6 × d̂; chosen
	fineDamping  = 1e-4 // N/mm³ after prolongation; chosen
	warmDamping  = 1e-4 // N/mm³; chosen
	lagWarm      = 1.0  // mm of expected motion below which a warm solve begins with the old factor; fewest milliseconds
	stallDamping = 1e-3 // N/mm³ at a new factor after a stall; chosen: fewest iterations over 26-40 mm on both meshes
	coarseLimit  = 60   // iterations on the coarse mesh; the state is good enough to go on from there
)

// coldStarts are the ways of a cold solve, tried in turn until surfaces do not cross: the coarse mesh it goes through and
// the rest distance (mm) below which tissue does not touch itself. 48×8 takes the fewest milliseconds of 40×8 to 64×10.
var coldStarts = [...]struct {
	columns, rows int
	exclusion     float64
}{{48, 8, restExclusion}, {64, 10, restExclusion}, {64, 10, 2.2}, {64, 10, 2.8}}

// Measures.
const (
	gapReach        = 5.0 // mm: beyond this the gap is to the nearest vertex of the other leaflet found downhill, not to its surface
	lineMeasured    = 0.9 // |s| up to which contact is averaged; beyond, the commissural fold always touches
	throatBlend     = 0.2 // mm: rows whose gap is within about this of the closest share the place of the throat
	smallestOrifice = 1.0 // mm²: smaller loops are the resolution of the mesh
	scanStep        = 0.2 // mm between the lines of the projected hole
)
