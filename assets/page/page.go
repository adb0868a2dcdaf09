// Package page embeds the browser page around the program: our own files, under this project's licence. The program
// itself (annuloscope.wasm) is embedded only in a release, with the build tag embedpage.
package page

import "embed"

// Shell holds index.html, page.js, page.css and icon.svg.
//
//go:embed index.html page.js page.css icon.svg
var Shell embed.FS
