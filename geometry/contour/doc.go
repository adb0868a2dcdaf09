// Package contour turns measured points into curves the model can use: the annulus as a closed curve in the frame of
// package geometry, vessels as open curves with radii in the same frame.
//
// Points come in any order and any frame, in millimetres (Options.Scale converts). A smoothing spline is fitted, the
// plane and the landmarks are found or taken as given, and everything is moved to the standard frame; the report says how
// far the points lie from the curve. Nothing is guessed in silence: what cannot be decided from the points (a flat ring,
// an ellipse whose two halves look alike) is an error that names the landmark to give.
//
// # Smoothing
//
// Among all curves f the spline minimises Σ wᵢ|pᵢ − f(uᵢ)|² + λ∫|f″|² du (Reinsch 1967, Numer Math 10:177-183, from
// memory), natural at the ends of an open curve, periodic on a closed one. λ is given or chosen by generalised
// cross-validation (Craven and Wahba 1979, Numer Math 31:377-403, from memory), the smoothest of nearly equal minima; it assumes independent errors: points
// with correlated errors are smoothed too little. The parameter u is arc length, found by refitting to the feet of the
// points, so that errors along the curve do not matter.
//
// # Limits
//
// A closed contour must be star-shaped round its centre; an unordered open curve must be sampled more finely than its
// branches approach each other. A mirrored contour cannot be told from its points: give landmarks if in doubt.
package contour
