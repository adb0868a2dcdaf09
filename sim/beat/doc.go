// Package beat is the program's circulation: a closed loop of eight elastic compartments (left ventricle, arteries,
// systemic veins, right atrium, right ventricle, pulmonary arteries, pulmonary veins, left atrium) driven by
// time-varying elastance, with an orifice and the inertance of its blood column at every valve and a leak at the
// mitral valve. Solve returns the periodic beat: waves, volumes, flows, pressures, times.
//
// Units: mL, mmHg, s; effective areas in cm² (units.EffectiveCM2). Time 0 is the onset of ventricular activation.
//
// An orifice of effective area A (cm²) passes q = 50.155·A·√Δp mL/s (true-density constant, physics.md B), plus
// L·dq/dt with L = ρ·length/A for its column. The leak opens only while the pressures drive blood backwards.
//
// Systolic phase of courses: 0 when the left ventricle's pressure rises 5 mmHg above the atrium's (some 10 ms after mitral
// closure), 1 when it falls to that again. These moments come out of the solution; courses over the phase are laid again before each beat of the search until
// nothing moves. Outside 0 to 1 a course holds its end values (hardly any leak flows there).
//
// Bad input returns an error that names field, value, range and fix; numerical trouble returns a Status.
package beat
