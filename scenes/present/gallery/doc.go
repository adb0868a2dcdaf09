// Package gallery draws figures of a study and makes files of them: pictures, drawings, films, frames and handouts, for
// the window, the page and the command alike.
//
// A Gallery draws on display lists of its own, so that the screen is not disturbed. A Job makes one file in slices: each
// Step does a little, so that a screen that calls it once a tick never stands still. The same study and order give the
// same bytes.
package gallery
