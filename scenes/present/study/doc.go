// Package study is what a person works on: one case with its history, the latest report, and how it is looked at. It
// holds no pixels and computes no physics; an Engine does, at once (Sync) or beside the screen (Async).
//
// Everything that can be turned is a Knob with an id:
//
//	anatomy/PATH             a number of the patient
//	group/NAME               several numbers moved together by the same amount
//	repair/KIND[#n]/KEY      a number of a repair; turning one that is not placed places it with its defaults
//
// A Document is the whole of it as JSON with a version, to be shared as a link or a file.
package study
