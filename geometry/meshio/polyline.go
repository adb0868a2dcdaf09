package meshio

import (
	"bytes"
	"fmt"
	"io"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Polyline is measured points of one curve.
type Polyline struct {
	Points  []r3.Vec  // mm, unless Unit says otherwise or the file does not say (CSV without a header)
	Radii   []float64 // in the same unit, one per point; nil when the file has none
	Unit    string    // that a CSV header states: mm, cm or m; empty when it states none
	Ordered bool      // the order is that of one line in the file; false: any order
	Closed  bool      // the file says that the line returns to its first point (which is not repeated in Points)
}

// Read reads a polyline in any of the three formats, told apart by the first bytes.
func Read(r io.Reader) (Polyline, error) {
	data, err := readLimited(r)
	if err != nil {
		return Polyline{}, err
	}
	head := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n")
	switch {
	case bytes.HasPrefix(bytes.ToLower(head), []byte("# vtk datafile")):
		return parseVTK(data)
	case bytes.HasPrefix(head, []byte("<")):
		return parseVTP(data)
	default:
		return parseCSV(data)
	}
}

// ReadCSV reads x, y, z and optionally radius per line. See parseCSV for what is accepted.
func ReadCSV(r io.Reader) (Polyline, error) { return readWith(r, parseCSV) }

// ReadVTK reads legacy VTK polydata.
func ReadVTK(r io.Reader) (Polyline, error) { return readWith(r, parseVTK) }

// ReadVTP reads VTK XML polydata.
func ReadVTP(r io.Reader) (Polyline, error) { return readWith(r, parseVTP) }

func readWith(r io.Reader, parse func([]byte) (Polyline, error)) (Polyline, error) {
	data, err := readLimited(r)
	if err != nil {
		return Polyline{}, err
	}
	return parse(data)
}

func readLimited(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("meshio: reading failed: %w", err)
	}
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("meshio: the file is larger than %d MB: give one contour or centreline", MaxBytes>>20)
	}
	return data, nil
}

// polyData is what both VTK readers collect before it becomes a Polyline.
type polyData struct {
	points []r3.Vec
	lines  [][]int
	polys  [][]int
	radii  []float64
}

// polyline picks the one curve of the data: the only line, else the only polygon, else all points in any order.
func (d polyData) polyline() (Polyline, error) {
	if len(d.points) == 0 {
		return Polyline{}, fmt.Errorf("meshio: the file has no points")
	}
	if d.radii != nil && len(d.radii) != len(d.points) {
		return Polyline{}, fmt.Errorf("meshio: %d radii for %d points: give one per point", len(d.radii), len(d.points))
	}
	cells := d.lines
	if len(cells) == 0 {
		cells = d.polys
	}
	for _, c := range cells {
		for _, i := range c {
			if i < 0 || i >= len(d.points) {
				return Polyline{}, fmt.Errorf("meshio: a line names point %d, the file has 0 to %d", i, len(d.points)-1)
			}
		}
	}
	out := Polyline{Points: d.points, Radii: d.radii}
	if len(cells) == 1 && len(cells[0]) >= 2 {
		c := cells[0]
		out.Ordered, out.Closed = true, len(d.lines) == 0
		if c[0] == c[len(c)-1] {
			out.Closed, c = true, c[:len(c)-1]
		}
		out.Points, out.Radii = make([]r3.Vec, len(c)), nil
		if d.radii != nil {
			out.Radii = make([]float64, len(c))
		}
		for k, i := range c {
			out.Points[k] = d.points[i]
			if d.radii != nil {
				out.Radii[k] = d.radii[i]
			}
		}
	}
	return out, out.check()
}

// check rejects what no curve in mm can be.
func (p Polyline) check() error {
	if len(p.Points) > MaxPoints {
		return fmt.Errorf("meshio: %d points, at most %d are read: thin the curve", len(p.Points), MaxPoints)
	}
	for i, v := range p.Points {
		for k, c := range [3]float64{v.X, v.Y, v.Z} {
			if math.IsNaN(c) || math.Abs(c) > maxCoordinateMM {
				return fmt.Errorf("meshio: point %d %c = %g is outside ±%g mm: correct the coordinate", i+1, "xyz"[k], c, maxCoordinateMM)
			}
		}
	}
	for i, r := range p.Radii {
		if !(r > 0) || r > maxCoordinateMM {
			return fmt.Errorf("meshio: point %d radius = %g mm must be positive: correct or leave out the column", i+1, r)
		}
	}
	return nil
}
