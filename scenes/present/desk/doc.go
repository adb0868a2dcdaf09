// Package desk is what all scenes share: the controls, the study, the view, the three-dimensional model, and the few
// actions that mean the same on every screen.
package desk
