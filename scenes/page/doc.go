//go:build !js

// Package page builds the program for the browser and serves it on this machine.
//
// A Site is a handful of files in memory, so a request can name only these: there is no path to walk and no folder to
// list. Answers forbid inline scripts, foreign origins and (unless told otherwise) frames.
package page
