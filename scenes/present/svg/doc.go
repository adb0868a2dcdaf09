// Package svg writes a display list as a flat vector picture: paths and text with plain attributes, no styles, filters
// or variables, so that every program that reads SVG shows the same.
//
// A three-dimensional scene has no vector form here: it is painted by package raster and embedded as a PNG; a comment
// in the file says so. Text stays text, set in the first available of a list of common fonts and stretched or squeezed
// to the width that the screen uses, so the layout holds whichever font is found.
package svg
