// Package artery says how much a band in the coronary sinus narrows the circumflex artery and its branches.
//
// One vessel is a row of stations along its axis. At each, the band (tension over radius of curvature) and the
// anchors (radial force, also with no shortening) press on the vein with a force per length; a share of it reaches
// the artery, which holds out with its own blood pressure and its wall, and flattens with its perimeter unchanged.
//
// Units: mm, N, N/mm; pressure in mmHg; flow in mL/s.
//
// # From vein to artery (load.go)
//
// The vein wall carries its part as a parallel spring (hoop stiffness against tissue stiffness). The rest is a line
// load on soft tissue, spread as in an elastic half-space (Flamant): the artery takes what crosses its width at the
// depth of its near wall, fat beside it takes the remainder. The band pulls towards the heart: an artery on its
// outer side is not pressed. An anchor pushes in every direction, outward against loose tissue only.
//
// # Flattening (lumen.go)
//
// A wall that keeps its length, blown up by p and squeezed between two plates, is a stadium with the flat part
// πR(1−x), x = minor radius ÷ R, so the force is F = p·πR(1−x) per length: exact, linear in 1−x. The wall's own
// resistance adds as a pressure (pinched elastic ring). The picture and the flow use the ellipse of the same minor
// radius and perimeter (its conductance has a closed form, physics.md F); it loses slightly more area than the
// stadium (0.30 against 0.25 at x = 0.5) and both are reported.
//
// At x = 0 opposite walls meet: the vessel is occluded, flagged, and more force changes nothing. This is the only
// kink of the model.
//
// # Flow (reserve.go)
//
// Viscous drop of the ellipse above that of the open vessel, plus the turbulence term of Young and Tsai
// (from memory) at the tightest station, in series with a bed that can dilate.
//
// # Left out
//
// Sliding aside of the artery, crossing at an angle (forces count per mm of vessel as if vein and artery ran side by
// side), plaque, tone, pulsation, a vessel downstream of a narrowed one, and that a flattening artery passes load to
// its surroundings.
package artery
