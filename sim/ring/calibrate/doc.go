// Package calibrate finds the constants of package ring from published force measurements, keeps them apart from the
// measurements used to validate, and prints where every constant comes from.
//
// Fitted: only the directions of the parameter space that the sinus cinch (anatomy.md S45) and the direct downsizing
// forces (S46) identify. Everything else keeps a prior, stated with its reason. Validation rows (validation.go) are
// never used in the fit.
package calibrate
