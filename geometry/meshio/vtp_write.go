package meshio

import (
	"bufio"
	"encoding/base64"
	"encoding/binary"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"

	"annuloscope/geometry"
)

// VTPOptions steers the VTP writers.
type VTPOptions struct {
	ASCII bool   // numbers as text instead of base64 (larger, readable); both carry float64 exactly
	Meta  []Meta // provenance, written as field data strings under their keys
}

// WriteVTP writes a mesh with its fields as VTK XML polydata. Field data strings: "units" (of the points and of every
// field), "notice", then Meta. NaN in a field means no value.
func WriteVTP(w io.Writer, m *geometry.Mesh, o VTPOptions) error {
	if err := m.Check(); err != nil {
		return err
	}
	v := &vtpWriter{w: bufio.NewWriter(w), ascii: o.ASCII}
	units := "points: mm"
	for _, f := range m.Fields {
		unit := f.Unit
		if unit == "" {
			unit = "1"
		}
		units += "; " + f.Name + ": " + unit
	}
	v.open(units, o.Meta)
	v.printf("<Piece NumberOfPoints=\"%d\" NumberOfVerts=\"0\" NumberOfLines=\"0\" NumberOfStrips=\"0\" NumberOfPolys=\"%d\">\n", len(m.Vertices), len(m.Faces))
	v.printf("<PointData>\n")
	for _, f := range m.Fields {
		v.floats(f.Name, 1, f.Values)
	}
	v.printf("</PointData>\n<Points>\n")
	coords := make([]float64, 0, 3*len(m.Vertices))
	for _, p := range m.Vertices {
		coords = append(coords, p.X, p.Y, p.Z)
	}
	v.floats("Points", 3, coords)
	v.printf("</Points>\n<Polys>\n")
	conn, offs := make([]int64, 0, 3*len(m.Faces)), make([]int64, 0, len(m.Faces))
	for _, f := range m.Faces {
		conn = append(conn, int64(f[0]), int64(f[1]), int64(f[2]))
		offs = append(offs, int64(len(conn)))
	}
	v.ints("connectivity", conn)
	v.ints("offsets", offs)
	v.printf("</Polys>\n")
	return v.close()
}

// WriteVTPPolyline writes a curve as one line cell, with the point data "radius" when it has radii.
func WriteVTPPolyline(w io.Writer, p Polyline, o VTPOptions) error {
	if err := p.check(); err != nil {
		return err
	}
	v := &vtpWriter{w: bufio.NewWriter(w), ascii: o.ASCII}
	v.open("points: mm; radius: mm", o.Meta)
	v.printf("<Piece NumberOfPoints=\"%d\" NumberOfVerts=\"0\" NumberOfLines=\"1\" NumberOfStrips=\"0\" NumberOfPolys=\"0\">\n<PointData>\n", len(p.Points))
	if p.Radii != nil {
		v.floats("radius", 1, p.Radii)
	}
	v.printf("</PointData>\n<Points>\n")
	var coords []float64
	var conn []int64
	for i, q := range p.Points {
		coords = append(coords, q.X, q.Y, q.Z)
		conn = append(conn, int64(i))
	}
	if p.Closed {
		conn = append(conn, 0)
	}
	v.floats("Points", 3, coords)
	v.printf("</Points>\n<Lines>\n")
	v.ints("connectivity", conn)
	v.ints("offsets", []int64{int64(len(conn))})
	v.printf("</Lines>\n")
	return v.close()
}

type vtpWriter struct {
	w     *bufio.Writer
	ascii bool
}

func (v *vtpWriter) printf(format string, args ...any) { fmt.Fprintf(v.w, format, args...) }

func (v *vtpWriter) open(units string, meta []Meta) {
	v.printf("<?xml version=\"1.0\"?>\n<VTKFile type=\"PolyData\" version=\"1.0\" byte_order=\"LittleEndian\" header_type=\"UInt64\">\n<PolyData>\n<FieldData>\n")
	for _, m := range append([]Meta{{"units", units}, {"notice", NoticeLong}}, meta...) {
		// VTK writes strings as the decimal codes of their bytes, each string ended by 0.
		v.printf("<DataArray type=\"String\" Name=\"%s\" NumberOfTuples=\"1\" format=\"ascii\">", attr(m.Key))
		for _, b := range []byte(oneLine(m.Value)) {
			v.printf("%d ", b)
		}
		v.printf("0</DataArray>\n")
	}
	v.printf("</FieldData>\n")
}

func (v *vtpWriter) close() error {
	v.printf("</Piece>\n</PolyData>\n</VTKFile>\n")
	return v.w.Flush() // reports the first failed write
}

func (v *vtpWriter) floats(name string, components int, values []float64) {
	v.array("Float64", name, components, len(values),
		func(i int) string { return number(values[i]) },
		func(i int) uint64 { return math.Float64bits(values[i]) })
}

func (v *vtpWriter) ints(name string, values []int64) {
	v.array("Int64", name, 1, len(values),
		func(i int) string { return fmt.Sprint(values[i]) },
		func(i int) uint64 { return uint64(values[i]) })
}

func (v *vtpWriter) array(kind, name string, components, n int, text func(int) string, bits func(int) uint64) {
	format := "binary"
	if v.ascii {
		format = "ascii"
	}
	v.printf("<DataArray type=\"%s\" Name=\"%s\" NumberOfComponents=\"%d\" format=\"%s\">\n", kind, attr(name), components, format)
	if v.ascii {
		for i := range n {
			sep := " "
			if (i+1)%(3*components) == 0 {
				sep = "\n"
			}
			v.printf("%s%s", text(i), sep)
		}
	} else {
		enc := base64.NewEncoder(base64.StdEncoding, v.w)
		var b [8]byte
		binary.LittleEndian.PutUint64(b[:], uint64(8*n))
		enc.Write(b[:])
		for i := range n {
			binary.LittleEndian.PutUint64(b[:], bits(i))
			enc.Write(b[:])
		}
		enc.Close()
	}
	v.printf("\n</DataArray>\n")
}

func attr(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(oneLine(s)))
	return b.String()
}
