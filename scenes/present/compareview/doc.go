// Package compareview is the scene that sets plans side by side on one patient: the untreated valve and up to three sets
// of repairs. Camera and beat are shared by all pictures, a map along the line has one colour scale for all, the table
// marks the better value by shape and word as well as colour, and the sentence on top says what differs and why.
//
// The plans live in the study and travel in its document. They are solved one at a time, between pictures.
package compareview
