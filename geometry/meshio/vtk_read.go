package meshio

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"strconv"
	"strings"
)

// vtkReader reads the tokens of a legacy VTK file.
type vtkReader struct {
	data   []byte
	pos    int
	binary bool
	out    polyData
	line   int // line of the last token, from 1
	seen   int // bytes already counted for line
}

func parseVTK(data []byte) (Polyline, error) {
	v := &vtkReader{data: data, line: 1}
	if err := v.file(); err != nil {
		v.countLines()
		return Polyline{}, fmt.Errorf("meshio: VTK, line %d: %w", v.line, err)
	}
	return v.out.polyline()
}

func (v *vtkReader) countLines() {
	v.line += bytes.Count(v.data[v.seen:v.pos], []byte("\n"))
	v.seen = v.pos
}

// restOfLine returns what is left of the current line and moves past it.
func (v *vtkReader) restOfLine() string {
	i := bytes.IndexByte(v.data[v.pos:], '\n')
	end, next := len(v.data), len(v.data)
	if i >= 0 {
		end, next = v.pos+i, v.pos+i+1
	}
	s := string(bytes.TrimRight(v.data[v.pos:end], "\r"))
	v.pos = next
	return s
}

// token returns the next blank-separated word, or "" at the end.
func (v *vtkReader) token() string {
	for v.pos < len(v.data) && v.data[v.pos] <= ' ' {
		v.pos++
	}
	start := v.pos
	for v.pos < len(v.data) && v.data[v.pos] > ' ' {
		v.pos++
	}
	return string(v.data[start:v.pos])
}

func (v *vtkReader) count() (int, error) {
	t := v.token()
	n, err := strconv.Atoi(t)
	if err != nil || n < 0 {
		return 0, fmt.Errorf("%q is not a count", clip(t))
	}
	if n > 16*MaxPoints {
		return 0, fmt.Errorf("count %d is too large: at most %d points are read", n, MaxPoints)
	}
	return n, nil
}

func (v *vtkReader) file() error {
	if h := v.restOfLine(); !strings.HasPrefix(strings.ToLower(h), "# vtk datafile version") {
		return fmt.Errorf("the file does not begin with \"# vtk DataFile Version\"")
	}
	v.restOfLine() // title
	switch k := strings.ToUpper(v.token()); k {
	case "ASCII":
	case "BINARY":
		v.binary = true
	default:
		return fmt.Errorf("%q is neither ASCII nor BINARY", clip(k))
	}
	if a, b := strings.ToUpper(v.token()), strings.ToUpper(v.token()); a != "DATASET" || b != "POLYDATA" {
		return fmt.Errorf("%q is not DATASET POLYDATA: export polydata", clip(a+" "+b))
	}
	tuples, point := 0, false
	for {
		word := strings.ToUpper(v.token())
		if word == "" {
			return nil
		}
		if err := v.section(word, &tuples, &point); err != nil {
			return fmt.Errorf("%s: %w", clip(word), err)
		}
	}
}

// section reads what follows one keyword. tuples and point say which data block it stands in.
func (v *vtkReader) section(word string, tuples *int, point *bool) error {
	var err error
	switch word {
	case "POINTS":
		var n int
		if n, err = v.count(); err != nil {
			return err
		}
		if n > MaxPoints {
			return fmt.Errorf("%d points, at most %d are read: thin the curve", n, MaxPoints)
		}
		xyz, err := v.numbers(3*n, v.token())
		if err != nil {
			return err
		}
		v.out.points = vectors(xyz)
	case "LINES":
		v.out.lines, err = v.cells()
	case "POLYGONS":
		v.out.polys, err = v.cells()
	case "VERTICES", "TRIANGLE_STRIPS":
		_, err = v.cells()
	case "POINT_DATA", "CELL_DATA":
		*tuples, err = v.count()
		*point = word == "POINT_DATA"
	case "SCALARS":
		name, kind, components := v.token(), v.token(), 1
		if t := v.token(); strings.ToUpper(t) != "LOOKUP_TABLE" {
			if components, err = strconv.Atoi(t); err != nil || components < 1 || components > 4 {
				return fmt.Errorf("%q is not a number of components from 1 to 4", clip(t))
			}
			if t = v.token(); strings.ToUpper(t) != "LOOKUP_TABLE" {
				return fmt.Errorf("%q stands where LOOKUP_TABLE is expected", clip(t))
			}
		}
		v.token() // table name
		return v.array(name, kind, components, *tuples, *point)
	case "VECTORS", "NORMALS":
		name, kind := v.token(), v.token()
		return v.array(name, kind, 3, *tuples, *point)
	case "FIELD":
		return v.field(*point)
	case "METADATA":
		v.restOfLine()
		for v.pos < len(v.data) && strings.TrimSpace(v.restOfLine()) != "" {
			continue
		}
	default:
		return fmt.Errorf("this keyword is not read here: save points, lines and scalars only")
	}
	return err
}

func (v *vtkReader) field(point bool) error {
	v.token() // name
	n, err := v.count()
	if err != nil {
		return err
	}
	for range n {
		name := v.token()
		if strings.ToUpper(name) == "METADATA" {
			v.restOfLine()
			for v.pos < len(v.data) && strings.TrimSpace(v.restOfLine()) != "" {
				continue
			}
			name = v.token()
		}
		components, err := v.count()
		if err != nil {
			return fmt.Errorf("array %q: %w", clip(name), err)
		}
		tuples, err := v.count()
		if err != nil {
			return fmt.Errorf("array %q: %w", clip(name), err)
		}
		if components > 16 {
			return fmt.Errorf("array %q has %d components, at most 16 are read", clip(name), components)
		}
		if err := v.array(name, v.token(), components, tuples, point); err != nil {
			return err
		}
	}
	return nil
}

// array reads a data array and keeps it when it is the radius of the points.
func (v *vtkReader) array(name, kind string, components, tuples int, point bool) error {
	values, err := v.numbers(components*tuples, kind)
	if err != nil {
		return fmt.Errorf("array %q: %w", clip(name), err)
	}
	if point && components == 1 && v.out.radii == nil && strings.Contains(strings.ToLower(name), "radius") {
		v.out.radii = values
	}
	return nil
}

// numbers reads n values of a VTK type, as text or big-endian.
func (v *vtkReader) numbers(n int, kind string) ([]float64, error) {
	kind = strings.ToLower(kind)
	size := typeSize(kind)
	if size == 0 {
		return nil, fmt.Errorf("numbers of type %q are not read: save as float, double or int", clip(kind))
	}
	if v.binary {
		v.restOfLine()
		if n*size > len(v.data)-v.pos {
			return nil, fmt.Errorf("the data is cut off: %d bytes are needed, %d are left", n*size, len(v.data)-v.pos)
		}
		raw := v.data[v.pos : v.pos+n*size]
		v.pos += n * size
		return decodeNumbers(raw, kind, binary.BigEndian)
	}
	if n > (len(v.data)-v.pos+1)/2+1 { // each number takes a digit and a blank
		return nil, fmt.Errorf("the data is cut off: %d numbers are needed", n)
	}
	out := make([]float64, n)
	for i := range out {
		t := v.token()
		if t == "" {
			return nil, fmt.Errorf("the data is cut off: %d of %d numbers are there", i, n)
		}
		x, err := strconv.ParseFloat(t, 64)
		if err != nil {
			return nil, fmt.Errorf("value %d of %d, %q, is not a number", i+1, n, clip(t))
		}
		out[i] = x
	}
	return out, nil
}

// cells reads a cell block in the old form (count then points, cell by cell) or that of version 5.1 (offsets,
// connectivity).
func (v *vtkReader) cells() ([][]int, error) {
	n, err := v.count()
	if err != nil {
		return nil, err
	}
	size, err := v.count()
	if err != nil {
		return nil, err
	}
	mark := v.pos
	if strings.ToUpper(v.token()) == "OFFSETS" {
		offsets, err := v.numbers(n, v.token())
		if err != nil {
			return nil, err
		}
		if t := v.token(); strings.ToUpper(t) != "CONNECTIVITY" {
			return nil, fmt.Errorf("%q stands where CONNECTIVITY is expected", clip(t))
		}
		connectivity, err := v.numbers(size, v.token())
		if err != nil {
			return nil, err
		}
		return cells(connectivity, offsets, true)
	}
	v.pos = mark
	flat, err := v.numbers(size, "int")
	if err != nil {
		return nil, err
	}
	var connectivity, offsets []float64
	for i := 0; i < len(flat); {
		c := flat[i]
		if !(c >= 0 && c <= float64(len(flat)-i-1)) {
			return nil, fmt.Errorf("a cell of %g points does not fit its block", c)
		}
		connectivity = append(connectivity, flat[i+1:i+1+int(c)]...)
		offsets = append(offsets, float64(len(connectivity)))
		i += 1 + int(c)
	}
	if len(offsets) != n {
		return nil, fmt.Errorf("%d cells announced, %d found", n, len(offsets))
	}
	return cells(connectivity, offsets, false)
}
