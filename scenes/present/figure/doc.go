// Package figure turns display lists into figures: PNG, SVG, GIF and a one-page PDF handout.
//
// Every figure carries a caption strip at its bottom, added here so that no caller can forget it: the caution, the
// case's hash and the program's version; the same and all further provenance are written into the file's metadata.
// A Stamp lacking one of the three is an error. Everything is written to an io.Writer; package scenes/save moves a
// finished file into place. The same input gives the same bytes: no clock and no random source is used.
package figure
