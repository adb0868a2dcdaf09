// Package relief turns the solved geometry of a valve into a three-dimensional scene: annulus, leaflets, vein, artery,
// devices, and labels placed beside them.
//
// The closed leaflets are the solver's sections, lofted; the open ones hang from the diastolic annulus to the outlines
// of the solved orifices. Only these two states are solved. What lies between them is drawn by moving every point
// straight from one to the other, and how fast is a chosen course (Opening): a screen that shows the valve beating says
// so. Lengths are millimetres in the valve's frame.
package relief
