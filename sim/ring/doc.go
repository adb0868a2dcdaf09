// Package ring finds the equilibrium of the mitral annulus and the coronary vein round it under repairs.
//
// Two lines of points are solved together. The annulus is a closed elastic ring: it resists stretch and bending, and
// every millimetre of it rests on an elastic foundation (the base of the ventricle). Its part between the fibrous
// trigones is nearly rigid. The vein (coronary sinus and great cardiac vein) is an open chain with its own stiffness,
// held by the fat of the groove it lies in. Where the vein lies on the atrium, the atrial wall couples it to the
// annulus; elsewhere nothing does.
//
// # Method
//
// The unknowns are the displacements of all points from rest. The energy is convex except for the compressed stretch
// springs and the rods. A strongly shortened soft annulus can have a second equilibrium (warm and cold starts differed in
// 11 of 25,000 random cases, by up to 0.13 mm); elsewhere they agree within WarmColdMM. Where so
// much is gathered that the annulus folds back on itself (Result.Folds), a fold may snap with little. Bending,
// foundation, groove and wall are quadratic and act in the rest frame; only stretch and cables follow the deformed
// shape. Newton's method with Armijo's rule works on a banded matrix (points in folded order: 0, N−1, 1, N−2, …, each
// vein point beside its annulus partner); each cable adds a rank-one term by the Sherman-Morrison-Woodbury identity.
//
// # What it leaves out
//
// The wall is linear and keeps its initial direction: it does not show the vein sliding up the atrium as it tightens.
// Bending is linear in the displacement and the ring has no twist, so large out-of-plane rotation costs energy that a
// real cord would not pay. There is no blood pressure in this package: the rest shape is the loaded shape at
// mid-systole and only changes are predicted. Friction between band and vein wall is nil; anchors slip by a rule.
//
// # What it shows, and does not
//
// At equal shortening a short band about P2 lowers the septal-lateral diameter as much as or more than one spread from
// trigone to trigone, because the same length is gathered where it counts; at equal tension or equal percentage, cover
// lost is effect lost. An anchor that slips gives up cover at constant tension, so pulling further can lose a little
// effect: the only way in which more shortening lengthens the septal-lateral diameter, apart from hundredths of a
// millimetre (at most 0.12) with a near vein high above the annulus (property_test.go). Distance matters at the level of the annulus;
// at a given elevation a nearer vein stands steeper above the annulus and may do worse.
//
// # Frame and units
//
// mm, N, N/mm². Frame of DEVELOPERS.md: +x posteromedial, +y aorta, +z atrium; annulus points counter-clockwise seen
// from the atrium starting at φ = 0; vein stations from the ostium.
//
// # Errors
//
// Input.Check returns an error for values from outside. Solve panics with "ring: …" on an input of the wrong
// structure (lengths that do not match, anchors crossed). Numerical outcomes are a Status. A Solver is not safe for
// use by two goroutines at once; two Solvers are.
package ring
