//go:build !embedpage

package page

import "embed"

// Built is empty without the build tag embedpage.
var Built embed.FS

// HasBuilt tells whether Built holds the program.
const HasBuilt = false
