package meshio

// Limits on input, chosen: a contour or centreline has at most thousands of points; the limits only keep a wrong file
// from filling the memory.
const (
	MaxBytes  = 64 << 20
	MaxPoints = 1_000_000

	maxCoordinateMM = 1e5 // 100 m; beyond it the number is certainly not a length in mm
)

// Notice stands in every file written here.
const Notice = "mm educational only"

// NoticeLong is the notice in formats that have room.
const NoticeLong = "educational only: not for diagnosis or treatment; lengths in mm"
