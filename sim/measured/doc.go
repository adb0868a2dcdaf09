// Package measured turns measured curves into a case: an annulus contour, and if there are any the centrelines of the
// coronary sinus and the circumflex artery with their radii. It is meant for bench, published or invented geometry; a case
// has no field for anything that identifies a person, and nothing of a file but its numbers gets into the case.
//
// What the curves say goes into the case; what they do not say (leaflets, heart, tortuosity, tissue) keeps the number of
// the base patient, and stations along the vein keep their share of its length. The case is marked as imported: the
// program gives it no grade and no selection rule, and every picture and file of it says that it is imported.
//
//   - Annulus: a closed smoothing spline (package contour), its plane, commissures, A2 and P2, found or given, give the two
//     diameters, the height and the share between the trigones. The model's annulus has these measures exactly; how far the
//     two curves lie apart is a residual.
//   - Sinus: length, angle of the mouth, and the distance and elevation from the measured annulus at the mouth, over P2 and
//     distally, with the arch, by least squares along the whole course. The smoothed curve is taken for the smooth path:
//     sinus.length_mm is its length times 1 + the base patient's tortuosity. Radii give the three diameters.
//   - Artery: where it lies under the vein and how much tissue lies between them, by least squares over the planes of the
//     vein's nodes. It needs the sinus, since its place is told from there.
//
// All curves of one import share one frame and one unit.
package measured
