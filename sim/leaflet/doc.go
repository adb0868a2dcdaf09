// Package leaflet solves the mitral leaflets as one thin shell in three dimensions: a ring of tissue that hangs from
// the annulus, is held by chords, is pushed by the blood, touches itself along the coaptation line and may be bonded
// there. It answers what sections cannot: the shape of two orifices, a flail, the tension of a bond.
//
// Frames and units follow DEVELOPERS.md: +x posteromedial, +y towards the aorta, +z towards the atrium; mm, N, N/mm².
// A material point has a column u (0 at the posteromedial commissure, counter-clockwise, 0.25 at A2, 0.5 at the
// anterolateral commissure, 0.75 at P2) and a row v (0 at the annulus, 1 at the margin). Its position along the line is
// s = x/x_max of the rest annulus at that column: −1 anterolateral, +1 posteromedial, the same for both leaflets.
//
// Model (../shared/reference/shell.md): constant-strain triangles with four fibre directions and a toe law, nearly slack
// in compression; quadratic hinges for bending; a vertex-triangle barrier of stated thickness for contact; follower
// pressure; one-sided chords from two papillary tips; bonds as a grid of springs. The state is an equilibrium: there is
// no mass and no time. Solver: damped Newton with its own sparse Cholesky, then a lagged factor with Anderson
// acceleration; a cold start goes through a coarse mesh.
//
// Left out: fibre anisotropy, viscoelasticity, fluid dynamics, edge-edge contact, friction, rupture, residual stress.
// Pressure acts on the whole leaflet in both phases. Peak strain at a chord does not converge with the mesh and is not
// given. Nothing here is validated against a patient; the lengths and stiffnesses are tuned (constants.go).
//
// A Solver is not safe for concurrent use; separate Solvers are independent. It keeps no package state, starts no
// goroutine, reads no clock. A cold solve is a function of the Input alone; a warm solve agrees with it within the
// tolerance that the tests state (0.05 mm of contact length over the cinching range).
package leaflet
