// Package sparse factors the symmetric positive definite matrices of the leaflet shell: square blocks of 3×3 (one
// vertex each), every block itself symmetric, the pattern a surface mesh plus the few pairs that are in contact.
//
// A Matrix collects blocks by slot; a Factor orders (exact minimum degree on bit sets), analyses and factors it as
// L·D·Lᵀ and solves. Nothing allocates once the largest pattern has been seen. Results are deterministic: the same
// pattern and values give the same bits on one machine. Values of one unlisted type are not used concurrently.
//
// Method: up-looking L·D·Lᵀ along the elimination tree (T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM
// 2006, chapter 4; from memory) and the minimum degree rule (A. George, J. W. H. Liu, SIAM Review 31, 1989; from memory).
package sparse
