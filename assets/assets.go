// Package assets holds the files that the program carries: invented patients, lessons, fonts and the page's shell.
// It decodes nothing and imports nothing of the program.
package assets

import "embed"

// Cases holds the built-in cases, cases/NAME.yaml.
//
//go:embed cases/*.yaml
var Cases embed.FS

// Demonstration is the case that opens first.
const Demonstration = "functional"

// CaseNames lists the built-in cases in the order in which people meet them.
func CaseNames() []string {
	return []string{"normal", "functional", "flail-p2", "high-sinus", "deep-artery"}
}
