//go:build !js

// Command annuloscope is an interactive model of the mitral annulus, leaflets, coronary sinus and circumflex artery:
// a window, a page and a command line over one solver. Educational only.
package main

import (
	"os"

	"annuloscope/cmd/annuloscope/command"
)

func main() { os.Exit(command.Main()) }
