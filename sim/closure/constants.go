package closure

// Constants of the model, each with unit, reason and origin. "invented" means chosen so that the trends of the teaching
// model are sensible: no measurement stands behind the number. "sheet" names ../shared/reference.
const (
	// ContactRoundingMM rounds the corner between contact and gap: contact·gap = ContactRoundingMM². Chosen.
	ContactRoundingMM = 0.2
	// TipRoundingMM rounds the smaller of the two leaflets' overlaps. Chosen.
	TipRoundingMM = 0.3

	// Strain laws, strain = toe·(1−exp(−T/scale)) + T/stiffness, T in N/mm. The leaflet reaches 7.8 ± 4.3 % radially in
	// vivo (anatomy.md S40) and the chord 4.3 ± 3.4 % (S38); the shape of the toe is chosen.
	leafletToe, leafletScale, leafletStiff = 0.08, 0.04, 4.0
	chordToe, chordScale, chordStiff       = 0.04, 0.04, 20.0

	// MarginTension (N) of the free margin along the closure line: circumferential tension about 0.1 N/mm times the
	// rough zone plus a third of the leaflet. Invented; its interval feeds the orifice interval.
	MarginTension     = 0.8
	MarginTensionLow  = 0.4
	MarginTensionHigh = 1.6
	// screeningDelta (N/mm) rounds the one-sided screening of closing forces in contact. Invented.
	screeningDelta = 0.004

	// Contraction is the ratio of effective to anatomic orifice, the one coefficient of the package. A sharp-edged slit
	// contracts to 0.62-0.66 (physics.md B, S22) and a rounded entry not at all; 0.8 lies between. Chosen.
	Contraction = 0.8

	// Clip: stiffness per length (N/mm²), greatest pull of one clip (N), edge of its box (mm), grip rounding (mm).
	// Invented.
	clipStiffness, clipForceMax, clipEdgeMM, gripRoundingMM = 1.0, 2.5, 0.35, 0.25
	// PoorGrip: below this grip or held length (mm) the finding "poor grip" is raised. Chosen.
	PoorGrip, PoorHeldMM = 0.9, 3.0
	// heldShare: the most of a leaflet that a grip can take in, as a share of its length. Chosen.
	heldShare = 0.5
	// MaxClips on one valve (the task's range).
	MaxClips = 3

	// Unevenness (mm) of the closure line at the fit's start, the greatest local deficit (mm) and the widening of the
	// jet tried before the unevenness is raised. Invented.
	unevennessStart, deficitMaxMM, jetWideningMax = 0.7, 15.0, 1.5
	// DefaultJetSpreadMM is the standard deviation of the jet's origin along the line; its interval follows. Invented.
	DefaultJetSpreadMM, JetSpreadLowMM, JetSpreadHighMM = 6.0, 4.0, 9.0

	// Template of the normal valve. Septal-lateral 28 mm: normal mid-systole (anatomy.md S01); depth 5 mm: S21. Contact
	// 5 mm in the middle, 3 mm at the ends: chosen between 3.1 mm measured (S21) and 8-10 mm surgical target (M05,
	// memory). Junction at 0.64 of the section: coaptation distance 17.9 of 28 mm (S21).
	templateAPMM, templateDepthMM              = 28.0, 5.0
	templateContactMidMM, templateContactEndMM = 5.0, 3.0
	templateJunction                           = 0.64
	// PapillaryApical, PapillaryPosterior: direction of the fitted papillary displacement (unit vector). Chosen.
	PapillaryApical, PapillaryPosterior = 0.8660254037844386, 0.5

	// CommissureLimit: the stations s = ±1 stand at this part of the half commissural width; nearer to the commissures
	// a section parallel to the y-z plane has no length. The tissue beyond is taken to be closed. Chosen.
	CommissureLimit = 0.92
	// papillaryReachMM: nominal chord length in the section by which an out-of-plane offset of the papillary tip is turned
	// into depth (see PapillaryPoint). About a primary chord of 19 mm (S36) plus the overlap. Chosen.
	papillaryReachMM = 22.0

	// BellyShare is the part of the free arc's bulge that the leaflets' belly keeps. Marginal chords alone would let the
	// arcs bulge far above what is seen and take up every tethering as slack; basal and strut chords hold the real belly.
	// The belly's offset from its chord is BellyShare of the arc's, its surplus of length BellyShare², in mechanics,
	// drawing, tenting and billowing alike; the tension stays that of the arc. 1 is the string without these chords.
	// Invented: 0.4 brings tenting areas near anatomy.md S22 and lets raised papillary muscles reduce the leak.
	BellyShare = 0.4
	// ruptureSlope (mm/mm): excess of a ruptured margin per mm from the nearest intact chord. Invented, so that cutting
	// 19, 24, 28 mm of P2 chords gives flail gaps near the shell's 2.9, 5.2, 7.9 mm (feasibility sheet "shell").
	ruptureSlope = 1.2
	// faultEdgeMM rounds the ends of a stretch of elongated, ruptured or calcified leaflet. Chosen.
	faultEdgeMM = 1.5
	// ExcessMaxMM: beyond this chord excess the flail leaflet runs away from the section model; clamped and flagged.
	// Found by trial, feasibility sheets agree.
	ExcessMaxMM, excessRoundingMM = 15.0, 0.5
	// A flail tip lifts the junction, and the other leaflet must follow; at some excess the section has no closed state any
	// more. The fit finds it at foldNodes stations and a change may add foldShare of it. Chosen.
	foldNodes, foldShare = 7, 0.9
	// FlailThresholdMM: a free tip farther than this from the other leaflet counts into the flail's width. Chosen.
	FlailThresholdMM = 1.0

	// Numbers of the solver: angle below which a leaflet counts as fully tethered (rad), angle above which the arc has no
	// solution (rad), step cap (mm), residual (mm), iterations.
	tetherAngle, maxAngle        = 0.12, 2.95
	stepCapMM, toleranceMM       = 3.0, 1e-9
	maxIterations, maxContinuing = 40, 60
	// minLead: smallest part of a change by which a continuation goes on.
	minLead = 1e-3
	// The walk along the chords' lengthening: part of the way of its first step, Newton iterations of one step, steps at
	// most, the length of path (mm, root of the sum of squares over all stations) and the part of the chords in the
	// direction at which the fold counts as found. Chosen.
	foldFirstPart, foldIterations, maxFoldSteps, foldLeastMM, foldFlat = 0.1, 8, 100, 1e-3, 1e-4
	// The walk also ends where the margin's force on some leaflet has grown to bearMost times what a kink can answer (on top of
	// what it was without the change), or an arc is within foldAngle (rad) of having no shape: beyond, the equations are
	// continued by invented floors, and states lie close beside each other that have nothing to do with leaflets. Chosen.
	bearMost, foldAngle = 2.0, 0.05
	// fitToleranceMM (residual) and fitMatchMM (depth and overlap) of the fit.
	fitToleranceMM, fitMatchMM = 1e-11, 1e-9
	// dryOrificeCM2: an orifice below this is as good as none (the fit's promise is 1e-6 cm²).
	dryOrificeCM2 = 2e-7
	// intervalToleranceMM: residual at which the solves for the orifice interval stop. Chosen for speed.
	intervalToleranceMM = 1e-3
	// courseToleranceMM: residual at which the phases of a course stop. Chosen.
	courseToleranceMM = 1e-5
)

// Phases of systole: time, pressure factor, septal-lateral factor, papillary displacement (mm, apical), excess factor.
var (
	tetheredPhases = [9]Phase{
		{0.05, 0.35, 0.970, 0.15, 1}, {0.15, 0.70, 0.970, 0.70, 1}, {0.25, 0.90, 0.975, 0.65, 1},
		{0.38, 0.98, 0.985, 0.30, 1}, {0.50, 1, 1, 0, 1}, {0.64, 1, 1.015, -0.40, 1},
		{0.78, 0.95, 1.03, -0.80, 1}, {0.88, 0.80, 1.045, -1.00, 1}, {0.97, 0.50, 1.06, -1.35, 1},
	}
	prolapsePhases = [9]Phase{
		{0.05, 0.35, 0.95, 0, 0.50}, {0.15, 0.70, 0.955, 0, 0.60}, {0.25, 0.90, 0.965, 0, 0.72},
		{0.38, 0.98, 0.98, 0, 0.87}, {0.50, 1, 1, 0, 1}, {0.64, 1, 1.01, 0, 1.07},
		{0.78, 0.95, 1.02, 0, 1.12}, {0.88, 0.80, 1.03, 0, 1.15}, {0.97, 0.50, 1.03, 0, 1.17},
	}
)
