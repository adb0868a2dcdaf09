// Package cohort draws virtual patients from published means, spreads, correlations and frequencies, and solves each
// before and after the same repairs.
//
// A patient is one of three groups (normal, functional, degenerative). The numbers of constants.go are drawn together
// from a normal copula: each number keeps its published mean and spread, and pairs keep their published (or, where the
// table says so, derived or chosen) correlation. Variants of the sinus and the circumflex artery are drawn by their
// published frequency. Everything that the table does not name keeps the value of the invented normal adult.
//
// A draw that cannot be (a number out of the program's range, an annulus narrower than it may be, a vein shorter than
// its part on the atrium, measurements that no valve shows together) is rejected, counted by its reason and drawn again.
// Rejection shifts the means a little; Summary says by how much.
//
// Patient i of a seed is the same however many are drawn and on however many threads: its random numbers come from a
// generator of its own, seeded by the seed and i. The package starts no goroutine and keeps no state; one Worker serves
// one thread.
//
// No number here was tuned so that a cohort comes out as an outside source says; Gaps shows the difference.
package cohort
