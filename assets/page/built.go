//go:build embedpage

package page

import "embed"

// Built holds annuloscope.wasm.gz and wasm_exec.js, put into the folder built before a release is compiled.
//
//go:embed built/annuloscope.wasm.gz built/wasm_exec.js
var Built embed.FS

// HasBuilt tells whether Built holds the program.
const HasBuilt = true
