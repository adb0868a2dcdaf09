//go:build long

package leaflet

func init() { ccxAgain = true }
