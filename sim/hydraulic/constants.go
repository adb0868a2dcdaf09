package hydraulic

// Contraction is effective ÷ anatomic area (dimensionless), for the opening and for the leak alike. Chosen 0.8.
// Bracket (physics.md B): sharp-edged plate 0.61–0.64 (S22), Gorlin's mitral constant implies 0.752 (S15), a
// well-rounded nozzle is near 1 (from memory); the published pairs of A3 with the flow shape below imply 0.76 and 0.70 at the flows assumed in the test.
// Larger values lower every gradient with its square.
const Contraction = 0.8

// JetConstant is the jet speed in cm/s behind 1 mmHg, the trade's rounding ("4v²", physics.md A1).
// units.JetSpeedPerRootMMHg is the value for true blood density, 0.3 % higher.
const JetConstant = 50.0

// The normalised shape of diastolic flow over the filling time (u from 0 to 1). Chosen; the proportions follow
// physics.md H: E/A 1.39 (S54), linear E deceleration (S56) of about 200 ms in a filling time of 545 ms (S55).
const (
	eaRatio    = 1.39 // peak early ÷ peak atrial flow, S54
	earlyPeak  = 0.17 // u of the early peak (0.17·545 = 93 ms), chosen
	earlyEnd   = 0.55 // u where early flow reaches zero (deceleration 207 ms at 545 ms), S55
	atrialFrom = 0.65 // u where atrial flow begins (191 ms at 545 ms), chosen
)

// Filling time = cycle − ejection − isovolumic times. Ejection 0.413 − 0.0017·rate s (from memory: Weissler,
// Circulation 1968), isovolumic phases together 0.12 s (chosen). Gives 0.394 s at 75/min and 0.353 s at 80/min
// against the 0.40 and 0.36 s of the worked examples in physics.md B.
const (
	ejectionAt0    = 0.413  // s
	ejectionSlope  = 0.0017 // s per beat/min
	isovolumicTime = 0.12   // s
)
