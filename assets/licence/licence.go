// Package licence embeds the licences of everything that a release carries besides the project's own files.
package licence

import _ "embed"

// Text lists modules and fonts with their licences, then gives each licence in full. It is made by
// `go test ./cmd/annuloscope -run TestLicences -update`.
//
//go:embed LICENCES.txt
var Text string
