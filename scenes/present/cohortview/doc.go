// Package cohortview is the scene of many virtual patients: the repairs of the desk done to all of them, one dot a patient,
// histograms of both axes whose ranges can be narrowed, the shares among the patients within those ranges, which anatomy
// decides, and what is known from outside beside it. A dot can be picked and its patient opened.
//
// Patients are solved one at a time by a runner beside the screen, or between two pictures where there is none, so that
// the screen never waits for them.
package cohortview
