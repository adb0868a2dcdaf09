package artery

import "math"

// Blood (physics.md, head: 3.5 mPa·s; 1060 kg/m³) in N, mm, s.
const (
	bloodViscosity = 3.5e-9   // N·s/mm²
	bloodDensity   = 1060e-12 // N·s²/mm⁴
)

// turbulenceKt is the turbulence constant of Young and Tsai (physics.md F, S42, from memory), dimensionless.
const turbulenceKt = 1.52

// pinchedRing is (π/4 − 2/π): the shortening of the loaded diameter of a thin elastic ring under two opposite point
// forces F is pinchedRing·F·R³/EI (physics.md D, S36).
const pinchedRing = math.Pi/4 - 2/math.Pi

// contactBlend is the distance in mm over which tissue thickness fades to zero when the artery touches the contact
// line. Chosen.
const contactBlend = 0.5

// outerBacking is the part of an anchor's push that reaches an artery on the outer side of the vein, where loose fat
// and pericardium give way. Chosen 0.3.
const outerBacking = 0.3

// Defaults of Tissue.
const (
	defaultVeinWall     = 0.006 // N/mm², hoop: modulus 0.05 N/mm² × 0.5 mm ÷ 4 mm; chosen (S49 in anatomy.md gives no modulus)
	defaultFat          = 0.015 // N/mm², soft tissue about the groove; chosen
	defaultArteryWall   = 0.4   // N/mm², 400 kPa, physics.md F "Critical pressure of a tube wall"
	defaultWallToRadius = 0.2   // wall thickness ÷ radius, same row
)

// Defaults of Bed (physics.md F "Flow-reserve curve").
const (
	defaultZeroFlow = 10.0 // mmHg
	defaultDilation = 4.0
	defaultRest     = 1.0 // mL/s at defaultRestLumen; other vessels by the cube of the diameter (Murray, from memory)
	restLumen       = 3.0 // mm
)

// Risk rule, see Risk. Chosen, except that the hyperaemic flow of a round narrowing begins to fall at 40–50 %
// (physics.md F, S43, from memory) and 60 % costs 37 % of reserve (S44), which is a share of 0.63.
const (
	likelyNarrowing   = 50.0 // %, worst view
	likelyReserve     = 0.63 // share of the unnarrowed reserve left
	possibleNarrowing = 25.0 // %
	possibleReserve   = 0.90
	possibleClearance = 1.0   // mm, while loaded
	loadedNPerMM      = 0.005 // N/mm on the vein from which a close vessel counts as loaded
)
