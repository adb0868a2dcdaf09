package geometry

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// Loft joins K ≥ 2 sections, each a polyline from annulus to margin with at least two points, into a triangle mesh of
// K·m vertices, vertex i·m + j being point j of section i after resampling to m ≥ 2 points equally spaced by arc length.
// closed also joins the last section to the first. Faces look to the side of (next section) × (towards the margin).
// Fields "along" (0 first section to 1 last) and "across" (0 annulus to 1 margin) come with it. Sections that shrink to
// a point (at a commissure) are allowed; Weld the mesh before Thicken then.
func Loft(sections [][]r3.Vec, m int, closed bool) *Mesh {
	k := len(sections)
	if k < 2 || m < 2 {
		panic("geometry: Loft needs at least 2 sections of at least 2 points")
	}
	out := &Mesh{Vertices: make([]r3.Vec, k*m)}
	along, across := make([]float64, k*m), make([]float64, k*m)
	for i, s := range sections {
		Resample(out.Vertices[i*m:(i+1)*m], s, false)
		for j := range m {
			along[i*m+j] = float64(i) / float64(k-1)
			across[i*m+j] = float64(j) / float64(m-1)
		}
	}
	out.Faces = gridFaces(k, m, closed, false)
	out.Fields = []Field{{"along", "", along}, {"across", "", across}}
	return out
}

// gridFaces triangulates a grid of k rows and m columns. Diagonals alternate so that a mirrored grid is meshed alike.
func gridFaces(k, m int, closedRows, closedColumns bool) [][3]int32 {
	rows, cols := k-1, m-1
	if closedRows {
		rows = k
	}
	if closedColumns {
		cols = m
	}
	faces := make([][3]int32, 0, 2*rows*cols)
	for i := range rows {
		for j := range cols {
			a := int32(i*m + j)
			b := int32((i+1)%k*m + j)
			c := int32((i+1)%k*m + (j+1)%m)
			d := int32(i*m + (j+1)%m)
			if (i+j)%2 == 0 {
				faces = append(faces, [3]int32{a, b, c}, [3]int32{a, c, d})
			} else {
				faces = append(faces, [3]int32{a, b, d}, [3]int32{b, c, d})
			}
		}
	}
	return faces
}
