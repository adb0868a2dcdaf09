// Package meshes turns the geometry of a solved case (valve.Shapes) into triangle meshes with fields: annulus, leaflets,
// vein, artery and device. It computes no physics: every field is a number of the Scene, or the distance between the two
// states of the same point.
//
// mm; frame of DEVELOPERS.md. Vessels are drawn open and round: the artery's narrowing is a field, not a shape. The
// leaflets are those of the closed valve (systole) between the outermost sections; the tissue beyond them, at the
// commissures, is not part of the model. In diastole the openings are a plan at a drawn depth, so they take the
// leaflets' place. Where the shell has been solved its leaflets come along, closed or open, with its own fields.
package meshes
