// Package validation carries the outcome of `annuloscope verify`: how many checks there are and every row on which the
// model disagrees with its source. A test of sim/verify fails when the file no longer says what verify says.
package validation

import _ "embed"

// Table is validation.json. Rewrite it with: go test ./sim/verify -run TestTheCarriedTableIsTrue -write
//
//go:embed validation.json
var Table []byte
