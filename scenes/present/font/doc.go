// Package font measures text and tells painters which glyphs make it up, without painting anything.
//
// There are two faces, regular and bold; a character they lack comes from the symbol font, and one that no font has
// becomes the replacement mark. Lengths are in the unit of the size handed in (logical pixels on screen). Text runs
// from left to right, one rune after another, with pair kerning and no ligatures, so the width measured here is
// exactly the width painted. The tables are built at the first use (about a millisecond), never change after that and
// are safe for concurrent use.
package font
