// Package valveview is the first scene: the valve in three dimensions, a cut through it, the two repairs and the main
// anatomy, and the numbers before and after.
package valveview
