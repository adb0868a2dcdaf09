// Package scenes runs a screen in a window or a page. It is the only package that knows Ebitengine (v2.10.0-alpha.13,
// pinned because it needs neither cgo nor headers on Linux and can be imported without a display), and uses it thinly:
// package raster paints the whole picture on the processor, Ebitengine uploads it as one texture and delivers input.
// The picture is painted and uploaded only when Screen.Tick says so or the size changes; at rest, a moment later, once
// more with finer three-dimensional scenes.
//
// In a window there is no screen-reader support; in the page the screen's controls, announcements and description
// (present.Spoken) are mirrored as real HTML elements by page.js.
package scenes
