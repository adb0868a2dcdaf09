package meshio

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/spatial/r3"
)

func testMesh() *geometry.Mesh {
	m := geometry.RoundTube([]r3.Vec{{}, {X: 3, Y: 1}, {X: 6, Z: 2.5}}, 1.25).Mesh(8, true)
	v := make([]float64, len(m.Vertices))
	for i := range v {
		v[i] = 1 / float64(i+1)
	}
	v[3] = math.NaN()
	m.SetField("contact", "N/mm²", v)
	return m
}

// Binary STL: 84 + 50n bytes, header not "solid", volume from the file equals that of the mesh.
func TestSTLLayout(t *testing.T) {
	m := testMesh()
	var b bytes.Buffer
	if err := WriteSTL(&b, m, "solid tube é with a very long name that does not fit into the header at all, by far"); err != nil {
		t.Fatal(err)
	}
	data := b.Bytes()
	if len(data) != 84+50*len(m.Faces) {
		t.Fatalf("%d bytes, want %d", len(data), 84+50*len(m.Faces))
	}
	head := string(data[:80])
	if strings.HasPrefix(strings.ToLower(strings.TrimSpace(head)), "solid") || !strings.Contains(head, "mm educational only") {
		t.Errorf("header %q", head)
	}
	if n := binary.LittleEndian.Uint32(data[80:]); int(n) != len(m.Faces) {
		t.Errorf("count %d", n)
	}
	volume := 0.0
	for i := range m.Faces {
		var p [4]r3.Vec
		for k := range p {
			f := func(j int) float64 {
				return float64(math.Float32frombits(binary.LittleEndian.Uint32(data[84+50*i+12*k+4*j:])))
			}
			p[k] = r3.Vec{X: f(0), Y: f(1), Z: f(2)}
		}
		volume += r3.Dot(p[1], r3.Cross(p[2], p[3])) / 6
		if c := r3.Cross(r3.Sub(p[2], p[1]), r3.Sub(p[3], p[1])); r3.Dot(r3.Unit(c), p[0]) < 0.9999 {
			t.Errorf("normal of face %d does not fit its corners", i)
		}
	}
	if math.Abs(volume-m.Volume()) > 1e-5*m.Volume() {
		t.Errorf("volume %g, want %g", volume, m.Volume())
	}
}

type failAfter struct{ left int }

func (f *failAfter) Write(p []byte) (int, error) {
	if f.left -= len(p); f.left < 0 {
		return 0, errors.New("disk full")
	}
	return len(p), nil
}

func TestWritersReportFailedWrites(t *testing.T) {
	m := testMesh()
	for n := 0; n < 3000; n += 500 {
		if err := WriteVTP(&failAfter{n}, m, VTPOptions{}); err == nil {
			t.Errorf("VTP: failed write after %d bytes not reported", n)
		}
		if err := WriteSTL(&failAfter{n / 2}, m, ""); err == nil {
			t.Errorf("STL: failed write after %d bytes not reported", n/2)
		}
	}
	m.Vertices[0].X = math.NaN()
	if WriteSTL(&bytes.Buffer{}, m, "") == nil || WriteVTP(&bytes.Buffer{}, m, VTPOptions{}) == nil {
		t.Error("a mesh with NaN was written")
	}
}

// A polyline written in any format reads back to the last bit, closed or open, with or without radii.
func TestPolylineRoundTrip(t *testing.T) {
	curve := geometry.AnnulusShape{SeptalLateralMM: 28, CommissuralMM: 39, HeightMM: 6.9}.Curve(50)
	radii := make([]float64, 50)
	for i := range radii {
		radii[i] = 3 + 1/float64(i+3)
	}
	for _, p := range []Polyline{
		{Points: curve, Ordered: true, Closed: true},
		{Points: curve, Radii: radii, Ordered: true},
	} {
		for name, write := range map[string]func(*bytes.Buffer) error{
			"csv": func(b *bytes.Buffer) error { return WriteCSV(b, p, []Meta{{"case", "a\nb"}}) },
			"vtp ascii": func(b *bytes.Buffer) error {
				return WriteVTPPolyline(b, p, VTPOptions{ASCII: true, Meta: []Meta{{"case", "<&\">"}}})
			},
			"vtp base64": func(b *bytes.Buffer) error { return WriteVTPPolyline(b, p, VTPOptions{}) },
		} {
			var b bytes.Buffer
			if err := write(&b); err != nil {
				t.Fatal(name, err)
			}
			got, err := Read(&b)
			if err != nil {
				t.Fatal(name, err)
			}
			if got.Closed != p.Closed || !got.Ordered || len(got.Points) != len(p.Points) || (got.Radii == nil) != (p.Radii == nil) {
				t.Fatalf("%s: closed %v ordered %v, %d points, radii %v", name, got.Closed, got.Ordered, len(got.Points), got.Radii != nil)
			}
			for i := range p.Points {
				if got.Points[i] != p.Points[i] || (p.Radii != nil && got.Radii[i] != p.Radii[i]) {
					t.Fatalf("%s: point %d changed", name, i)
				}
			}
		}
	}
}

func TestVTPCarriesUnitsAndNotice(t *testing.T) {
	var b bytes.Buffer
	if err := WriteVTP(&b, testMesh(), VTPOptions{ASCII: true, Meta: []Meta{{"commit", "abc"}}}); err != nil {
		t.Fatal(err)
	}
	if s := b.String(); !strings.Contains(s, `Name="commit" NumberOfTuples="1" format="ascii">97 98 99 0<`) || !strings.Contains(s, `Name="notice"`) || !strings.Contains(s, `Name="units"`) {
		t.Error("field data strings are missing")
	}
}

// An independent reader: VTK, when Debian's python3-vtk9 is present.
func TestVTPReadByVTK(t *testing.T) {
	const python = "/usr/bin/python3"
	if exec.Command(python, "-c", "import vtk").Run() != nil {
		t.Skip("python3-vtk9 is not installed")
	}
	m := testMesh()
	dir := t.TempDir()
	for name, o := range map[string]VTPOptions{"a.vtp": {ASCII: true, Meta: []Meta{{"commit", "abc"}}}, "b.vtp": {Meta: []Meta{{"commit", "abc"}}}} {
		f, err := os.Create(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := WriteVTP(f, m, o); err != nil {
			t.Fatal(err)
		}
		f.Close()
		out, err := exec.Command(python, "-c", `
import sys, vtk
r = vtk.vtkXMLPolyDataReader(); r.SetFileName(sys.argv[1]); r.Update(); d = r.GetOutput()
p = vtk.vtkMassProperties(); p.SetInputData(d)
print(d.GetNumberOfPoints(), d.GetNumberOfPolys(), "%.9f" % p.GetVolume(), "%.9f" % d.GetPointData().GetArray("contact").GetValue(4),
      d.GetFieldData().GetAbstractArray("commit").GetValue(0))`, f.Name()).CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		var points, polys int
		var volume, contact float64
		var commit string
		if _, err := sscan(string(out), &points, &polys, &volume, &contact, &commit); err != nil {
			t.Fatalf("%s: %v", out, err)
		}
		if points != len(m.Vertices) || polys != len(m.Faces) || math.Abs(volume-m.Volume()) > 1e-6 || math.Abs(contact-0.2) > 1e-9 || commit != "abc" {
			t.Errorf("%s: VTK reads %s, want %d %d %.9f", name, out, len(m.Vertices), len(m.Faces), m.Volume())
		}
	}
}

// An independent reader: admesh, when present, finds the solid closed.
func TestSTLReadByAdmesh(t *testing.T) {
	admesh, err := exec.LookPath("admesh")
	if err != nil {
		t.Skip("admesh is not installed")
	}
	name := filepath.Join(t.TempDir(), "m.stl")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := WriteSTL(f, testMesh(), "tube"); err != nil {
		t.Fatal(err)
	}
	f.Close()
	out, err := exec.Command(admesh, name).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	found := 0
	for _, line := range strings.Split(string(out), "\n") {
		for _, what := range []string{"Total disconnected facets", "Degenerate facets", "Facets reversed"} {
			if strings.Contains(line, what) {
				found++
				if f := strings.Fields(line); f[len(f)-1] != "0" || f[len(f)-2] != "0" && f[len(f)-2] != ":" {
					t.Errorf("admesh: %s", line)
				}
			}
		}
	}
	if found != 3 {
		t.Errorf("admesh reports %d of 3 lines: %s", found, out)
	}
}
