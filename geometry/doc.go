// Package geometry holds the shapes of Annuloscope: closed curves, the saddle-shaped annulus, tubes, lofted leaflets,
// triangle meshes, and what one measures on them.
//
// It is pure mathematics on gonum's r3.Vec. It knows lengths in millimetres and angles in radians and nothing of tissue,
// patients or repairs. It reads no file, no clock and no random source, keeps no package state and starts no goroutine;
// every function may be called from several goroutines at once on different destination slices.
//
// # Frame
//
// Right-handed, millimetres: +x towards the posteromedial commissure, +y towards the aorta (septal), +z towards the
// atrium. The angle φ runs counter-clockwise seen from the atrium: 0 at the posteromedial commissure, π/2 at A2, π at
// the anterolateral commissure, 3π/2 at P2. The origin is the midpoint between the commissures, in the least-squares
// plane of the annulus.
//
// # Curves
//
// A curve is a []r3.Vec. A closed curve does not repeat its first point at the end; the closing segment is implied. What
// is said of "the curve" in a measure is the polygon through the points unless the comment says spline.
//
// # Errors
//
// A caller's mistake (too few points, a slice of the wrong length) panics with "geometry: reason". Data from outside
// that cannot be used returns an error that names the field, the value and the allowed range.
//
// Sub-packages: meshio reads and writes files given as io.Reader and io.Writer; contour turns measured points into a
// curve in the frame above.
package geometry
