// Package font embeds the fonts of the program; README.md beside it states where they come from and their licences.
//
// The files are glyph subsets made by subset.py: Latin, Greek and punctuation in two weights, and symbols (arrows,
// mathematics, sub- and superscripts, fractions, shapes) in one. Nothing is decoded here.
package font

import _ "embed"

// TextRegular is the text font, TrueType.
//
//go:embed text-regular.ttf
var TextRegular []byte

// TextBold is the bold text font, TrueType.
//
//go:embed text-bold.ttf
var TextBold []byte

// Symbols holds what the text fonts lack, TrueType.
//
//go:embed symbols.ttf
var Symbols []byte
