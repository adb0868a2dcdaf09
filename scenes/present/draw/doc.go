// Package draw is the display list: everything a screen or figure shows, as plain data in logical pixels.
//
// A screen appends operations to a List; a painter (package raster for pixels, package svg for vector figures) paints
// it. Coordinates are logical pixels, x to the right, y down, the origin at the top left; a painter multiplies by its
// own scale. Three-dimensional pictures are one operation holding a Scene in millimetres and a Camera; labels on them
// are ordinary text operations placed with Camera.Project, so every painter puts them in the same place.
//
// A List keeps its memory when Reset, so painting an unchanged layout again allocates nothing.
package draw
