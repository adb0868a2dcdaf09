// Package words holds every string a screen shows, in every language, and puts numbers into them.
//
// A message is a pattern with named gaps: "{what} fell to {n} cm²". A gap with choices, {n|one edge|several edges}, is
// a plural: the first choice where n is 1, the second otherwise; "#" inside a choice is the number itself. A missing
// message shows its key between « and », so that it is seen, and a test compares the keys of all languages.
//
// Texts that come from the definition tables of sim (labels, meanings) are English there; Table looks up their
// translation by key and gives the English text where there is none.
//
// The language "double" is for tests only: each text twice as long with foreign letters.
package words
