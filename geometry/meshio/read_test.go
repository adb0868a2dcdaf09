package meshio

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func sscan(s string, args ...any) (int, error) { return fmt.Sscan(s, args...) }

const vtkASCII = `# vtk DataFile Version 3.0
sinus
ASCII
DATASET POLYDATA
POINTS 4 float
0 0 0 1 0 0
2 0.5 0 3 1 0
LINES 1 5
4 3 2 1 0
CELL_DATA 1
SCALARS id int
LOOKUP_TABLE default
7
POINT_DATA 4
FIELD FieldData 2
Pressure 1 4 double
9 9 9 9
Radius 1 4 float
1 2 3 4
`

const vtk51 = `# vtk DataFile Version 5.1
vtk output
ASCII
DATASET POLYDATA
POINTS 3 double
0 0 0 10 0 0 0 10 0
METADATA
INFORMATION 0

LINES 2 4
OFFSETS vtktypeint64
0 4
CONNECTIVITY vtktypeint64
0 1 2 0
`

const vtpASCII = `<?xml version="1.0"?>
<VTKFile type="PolyData" version="0.1" byte_order="LittleEndian">
<PolyData><Piece NumberOfPoints="3" NumberOfLines="1">
<PointData Scalars="Radius"><DataArray type="Float32" Name="Radius" format="ascii">1 2 3</DataArray></PointData>
<Points><DataArray type="Float32" NumberOfComponents="3" format="ascii">0 0 0  1 0 0  1 1 0</DataArray></Points>
<Lines><DataArray type="Int32" Name="connectivity" format="ascii">0 1 2</DataArray>
<DataArray type="Int32" Name="offsets" format="ascii">3</DataArray></Lines>
</Piece></PolyData></VTKFile>`

func binaryVTK() []byte {
	var b bytes.Buffer
	b.WriteString("# vtk DataFile Version 4.2\nx\nBINARY\nDATASET POLYDATA\nPOINTS 3 float\n")
	binary.Write(&b, binary.BigEndian, []float32{0, 0, 0, 10, 0, 0, 0, 10, 5})
	b.WriteString("\nLINES 1 4\n")
	binary.Write(&b, binary.BigEndian, []int32{3, 0, 1, 2})
	b.WriteString("\nPOINT_DATA 3\nSCALARS radius double 1\nLOOKUP_TABLE default\n")
	binary.Write(&b, binary.BigEndian, []float64{1.5, 2.5, 3.5})
	b.WriteString("\n")
	return b.Bytes()
}

func TestReadFormats(t *testing.T) {
	cases := []struct {
		name, data string
		n          int
		closed     bool
		ordered    bool
		last       r3.Vec
		radius     float64 // of the last point, 0 for none
	}{
		{"legacy, reversed line", vtkASCII, 4, false, true, r3.Vec{}, 1},
		{"legacy 5.1, closed", vtk51, 3, true, true, r3.Vec{Y: 10}, 0},
		{"legacy binary", string(binaryVTK()), 3, false, true, r3.Vec{Y: 10, Z: 5}, 3.5},
		{"vtp", vtpASCII, 3, false, true, r3.Vec{X: 1, Y: 1}, 3},
		{"csv with header in another order", "# bench\nradius_mm, z (mm), y, x, note\n2,3,4,5,abc\n1, 0, 0 ,7,\n", 2, false, true, r3.Vec{X: 7}, 1},
		{"csv of blanks, byte order mark, carriage returns", "\xef\xbb\xbf0 0 1\r\n1 2 3\r\n\r\n4 5 6e1\r\n", 3, false, true, r3.Vec{X: 4, Y: 5, Z: 60}, 0},
		{"csv closed by its first point", "0;0;0\n1;0;0\n1;1;0\n0;1;0\n0;0;0\n", 4, true, true, r3.Vec{Y: 1}, 0},
	}
	for _, c := range cases {
		p, err := Read(strings.NewReader(c.data))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		last := len(p.Points) - 1
		if len(p.Points) != c.n || p.Closed != c.closed || p.Ordered != c.ordered || p.Points[last] != c.last {
			t.Errorf("%s: %+v", c.name, p)
		}
		if c.radius == 0 && p.Radii != nil || c.radius != 0 && (p.Radii == nil || p.Radii[last] != c.radius) {
			t.Errorf("%s: radii %v", c.name, p.Radii)
		}
	}
}

// Every mistake is one error that names the place and the fix.
func TestReadErrors(t *testing.T) {
	cases := []struct{ name, data, want string }{
		{"empty", "", "no points"},
		{"words", "hello world\n", `column x is missing`},
		{"inch header", "x_in,y_in,z_in\n1,2,3\n", `"x_in" is in neither mm, cm nor m`},
		{"mixed units", "x_cm,y_mm,z_cm\n1,2,3\n", "another unit than the one before (cm)"},
		{"short line", "1,2,3\n1,2\n", "line 2 has 2 columns"},
		{"not a number", "1,2,3\n1,two,3\n", `line 2, column 2: "two"`},
		{"NaN", "1,2,3\n1,NaN,3\n", "line 2, column 2"},
		{"huge", "1,2,3\n1e9,0,0\n", "line 2, column 1"},
		{"radius", "1,2,3,0\n", "line 1, column 4"},
		{"binary", "\x00\x01\x02\x03\n", "line 1"},
		{"vtk cut off", vtkASCII[:95], "line 7: POINTS: the data is cut off"},
		{"vtk wrong dataset", strings.Replace(vtkASCII, "POLYDATA", "STRUCTURED_GRID", 1), "line 4"},
		{"vtk count", strings.Replace(vtkASCII, "POINTS 4", "POINTS 99999999999", 1), "line 5"},
		{"vtk line to nowhere", strings.Replace(vtkASCII, "4 3 2 1 0", "4 3 2 1 9", 1), "names point 9"},
		{"vtk keyword", vtkASCII + "TENSORS a float\n", "TENSORS"},
		{"vtp truncated", vtpASCII[:300], "line"},
		{"vtp appended", strings.Replace(vtpASCII, "<PolyData>", "<AppendedData/><PolyData>", 1), "inline"},
		{"vtp compressed", strings.Replace(vtpASCII, "version=\"0.1\"", "compressor=\"vtkZLibDataCompressor\"", 1), "without compression"},
		{"vtp other", strings.Replace(vtpASCII, "PolyData\" v", "ImageData\" v", 1), "PolyData"},
		{"html", "<html><body>404</body></html>", "VTKFile"},
		{"vtp two components", strings.Replace(vtpASCII, `NumberOfComponents="3"`, `NumberOfComponents="2"`, 1), "Points"},
		{"vtp offsets", strings.Replace(vtpASCII, ">3<", ">77<", 1), "offset 1"},
		{"vtp radii", strings.Replace(vtpASCII, ">1 2 3<", ">1 2<", 1), "2 radii for 3 points"},
	}
	for _, c := range cases {
		p, err := Read(strings.NewReader(c.data))
		if err == nil {
			t.Errorf("%s: accepted as %+v", c.name, p)
			continue
		}
		if !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: error %q does not contain %q on one line", c.name, err, c.want)
		}
	}
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '#'
	}
	return len(p), nil
}

func TestReadLimits(t *testing.T) {
	if _, err := Read(endless{}); err == nil || !strings.Contains(err.Error(), "64 MB") {
		t.Errorf("endless file: %v", err)
	}
	many := io.MultiReader(strings.NewReader(strings.Repeat("1 2 3\n", MaxPoints+1)))
	if _, err := ReadCSV(many); err == nil || !strings.Contains(err.Error(), "points") {
		t.Errorf("too many points: %v", err)
	}
}

func fuzzReader(f *testing.F, read func(io.Reader) (Polyline, error), seeds ...string) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := read(bytes.NewReader(data))
		if err != nil {
			return
		}
		if len(p.Points) == 0 || len(p.Points) > MaxPoints || (p.Radii != nil && len(p.Radii) != len(p.Points)) {
			t.Fatalf("accepted %d points, %d radii", len(p.Points), len(p.Radii))
		}
		if err := p.check(); err != nil {
			t.Fatalf("accepted what the check refuses: %v", err)
		}
		var b bytes.Buffer
		if err := WriteVTPPolyline(&b, p, VTPOptions{}); err != nil {
			t.Fatal(err)
		}
		q, err := ReadVTP(&b)
		if err != nil || len(q.Points) != len(p.Points) {
			t.Fatalf("what was read does not survive writing: %v", err)
		}
	})
}

func FuzzReadCSV(f *testing.F) {
	fuzzReader(f, ReadCSV, "1,2,3\n4,5,6\n", "x,y,z,radius\n0 0 0 1\n", "# c\nx_mm;y_mm;z_mm\n1;2;3\n", "1 2 3 4\n")
}

func FuzzReadVTK(f *testing.F) {
	fuzzReader(f, ReadVTK, vtkASCII, vtk51, string(binaryVTK()))
}

func FuzzReadVTP(f *testing.F) {
	var b bytes.Buffer
	WriteVTPPolyline(&b, Polyline{Points: []r3.Vec{{X: 1}, {Y: 2}, {Z: 3}}, Radii: []float64{1, 2, 3}, Closed: true}, VTPOptions{})
	fuzzReader(f, ReadVTP, vtpASCII, b.String())
}
