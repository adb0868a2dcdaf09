// Package orifice opens the valve in diastole: how large one to four orifices are, given the intact opening, the
// free margin and up to three bonds (clips or stitches), with an outline of each that measures exactly its area.
//
// Frame: the valve's plan, x towards the posteromedial commissure, y towards the aorta, mm, origin midway between
// the commissures (DEVELOPERS.md). Position along the line of coaptation runs from −1 (anterolateral) to +1.
// Areas are anatomic (planimetry) unless the type says effective.
//
// # The law, and where excursion hands over to margin
//
// Two limits hold for every stretch of the line between two bonds (or a bond and a commissure):
//
//   - excursion: chords let the leaflets swing out only so far. Without bonds that limit is a half-ellipse of
//     heights over the line; a stretch owns the part of it that lies above its own chord, so bonds lose only the
//     part above themselves;
//   - margin: an inextensible free edge of length s on each side of a chord L encloses at most the lens of two
//     circular arcs, or the free circle s²/π once s > πL/2 (physics.md A4, both rows). A bond of width w takes w
//     from the chord and w from each edge.
//
// The opening of a stretch is E and M combined as (E⁻ⁿ + M⁻ⁿ)^(−1/n) with n = HandOver (constants.go): far from the
// crossing the smaller limit rules, at E = M the opening is 2^(−1/n) of either, and everything between is smooth.
// MarginShare reports, from 0 to 1, how much the margin governs. The excursion limit of the intact valve is fitted
// so that no bond gives exactly the stated intact opening.
//
// The combination is homogeneous of degree one and concave, and M is superadditive, so another bond can never raise
// the area; scaling all lengths by k scales all areas by k².
//
// # Hold
//
// A bond with Hold 0 (not grasped) has no effect, 1 is firm. Between them the heights of the opening are the
// average of "held" and "not held" weighted with Hold (over all subsets of bonds), so the picture shows a waist
// and the area changes continuously. Bonds with Hold of at least SplitHold divide the list of orifices; the total
// does not depend on that.
//
// # Left out
//
// Leaflet stiffness, stretch of the margin, the pull of one orifice on another, and the third dimension: outlines
// are a plan. Their ellipse shape and the bow of the line are drawn, not solved; only areas are.
package orifice
