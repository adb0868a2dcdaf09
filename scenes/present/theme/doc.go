// Package theme is the look of the screens: colours, type sizes and spacing as plain values, and the rules they keep.
//
// Three themes share one set of roles. Text on its surfaces keeps a contrast of at least 4.5 (projector: 7), control
// edges and drawn structures at least 3 against the surface they lie on (WCAG 2.2, success criteria 1.4.3, 1.4.6 and
// 1.4.11); tests check every pair. Sizes are logical pixels at 100 %; everything sits on an 8-pixel grid.
package theme
