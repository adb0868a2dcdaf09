// Package closure solves the leaflets of the mitral valve in systole.
package closure
