package geometry

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// SectionPlane places a planar section in space. Its own coordinates are those of the section frame: x towards lateral
// (posterior), z towards the atrium.
type SectionPlane struct {
	Origin r3.Vec // mm
	Dir    r3.Vec // unit, the direction of section x
	Up     r3.Vec // unit, the direction of section z
}

// LongAxisPlane returns the section at the position x along the commissural line, whose section x is −y of the frame.
func LongAxisPlane(x float64) SectionPlane {
	return SectionPlane{Origin: r3.Vec{X: x}, Dir: r3.Vec{Y: -1}, Up: r3.Vec{Z: 1}}
}

// Point returns the place in space of the section coordinates x, z.
func (p SectionPlane) Point(x, z float64) r3.Vec {
	return r3.Add(p.Origin, r3.Add(r3.Scale(x, p.Dir), r3.Scale(z, p.Up)))
}

// Coordinates returns the section coordinates of the foot of q on the plane.
func (p SectionPlane) Coordinates(q r3.Vec) (x, z float64) {
	d := r3.Sub(q, p.Origin)
	return r3.Dot(d, p.Dir), r3.Dot(d, p.Up)
}

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
