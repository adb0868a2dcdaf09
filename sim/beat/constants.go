package beat

const (
	// defaultSteps per beat. Chosen from the grid study in the tests.
	defaultSteps = 300
	minSteps     = 50
	maxSteps     = 20000

	// density of blood as pressure: 1060 kg/m³ in mmHg·s²/cm² (physics.md head; 1060e-4/133.322), so that a column of
	// l cm over A cm² has L = density·l/A in mmHg·s²/mL.
	density = 1060e-4 / 133.322

	// Ventricular activation: the double Hill of physics.md C1 (S29), its published time constants 0.303 and 0.508 of
	// the cycle shortened by 3 % (chosen: isovolumic relaxation 95 ms, physics.md H, S54) at the reference cycle.
	referenceRate  = 70.0                 // 1/min
	referenceCycle = 60.0 / referenceRate // s
	riseTime       = 0.97 * 0.303 * referenceCycle
	riseExponent   = 1.32
	fallTime       = 0.97 * 0.508 * referenceCycle
	fallExponent   = 21.9
	// systoleSlope: every time within the beat scales with exp(−slope·(rate−70)); min. The slope is that of the
	// classical straight line for electromechanical systole, 546 − 2.1·rate ms (from memory), relative, at 70/min.
	systoleSlope = 2.1 / (546 - 2.1*referenceRate)

	// Atrial contraction: one raised cosine. Chosen: an ordinary delay between atrium and ventricle, from memory.
	atrialLead     = 0.13 // s before ventricular activation at the reference cycle
	atrialDuration = 0.17 // s

	// Other columns of blood in cm, for the inertance of the other valves. Chosen: about two valve radii.
	otherColumnCM = 2.0

	// tolerance of the periodic state: largest change over a beat, mL and mL/s. Chosen: a hundred times finer than
	// the last printed digit.
	tolerance = 1e-5
	// courseTolerance: largest relative change of a leak or opening course between beats. Chosen.
	courseTolerance = 1e-5
	maxBeats        = 80
	coldBeats       = 6      // plain beats of a cold start
	stepMargin      = 5000.0 // mL: Newton may pass this far below an unstressed volume before it is refused

	// courseLevel (mmHg): courses over the systolic phase run while LV exceeds LA by this much. Chosen: on the steep
	// part of the pressure, so that the turn of the pressures at the end of the atrial contraction cannot make the
	// phase jump.
	courseLevel = 5.0
	// nominalEnd is the end of systole (s, at the reference cycle) assumed before the first beat.
	nominalEnd = 0.45

	// Limits of the pressure and volume factors of the leak (dimensionless). Chosen: wide, only to stay finite.
	pressureFactorMin, pressureFactorMax = 0.25, 4.0
	volumeFactorMin, volumeFactorMax     = 0.0, 4.0
	// pressureFloor (mmHg) under the pressure factor, so that it stays moderate where the flow turns. Chosen.
	pressureFloor = 10.0
)

const (
	// emptyElastance (mmHg/mL): passive stiffness of a ventricle squeezed far below V0, where the exponential goes flat;
	// keeps dp/dV positive. Chosen: 0.2 mmHg at 100 mL.
	emptyElastance = 0.002
	// Cold start: stressed ventricle (mL), arterial and filling pressure (mmHg). Chosen: near the resting adult.
	coldVentricle, coldArterial, coldFilling = 100.0, 90.0, 8.0
)

// vWaveTail: the v wave is sought until this long (s, at the reference cycle) after mitral opening. Chosen.
const vWaveTail = 0.05
