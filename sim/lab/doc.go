// Package lab measures a solved valve as a laboratory would, from waves and shapes, with the laboratory's own
// formulas, so that their known errors appear beside the true number.
//
// Units: s, mmHg, mL, mL/s, cm, cm/s, cm², mm for shapes. Results are effective areas unless said otherwise.
//
// Waves: Gorlin, pressure half-time. Doppler: continuity, volumetric. Flow convergence: the hemispheric estimate
// reads one radius r, where the blood speeding towards the hole passes the aliasing speed, and takes the isovelocity
// surface for a half sphere. The true field comes from the real shape of the hole (convergence.go): potential flow
// into a sink along the hole's focal line, whose half length √(a²−b²) follows from the half extents a ≥ b of the
// hole, so a round hole is a point sink with true half spheres and a slit has elongated surfaces which the
// hemispheric estimate under-reads. NearFieldRadius keeps the hole's extent instead (uniform inflow over the
// polygon): it adds the flattening close to the hole, by which a round hole also reads low (0.35 instead of 0.40 for
// the example in the tests). Real convergence zones lie between; walls and funnel shape are left out.
package lab
