package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func circle(radius float64, n int) []r3.Vec {
	return sample(n, func(t float64) r3.Vec { return r3.Vec{X: radius * math.Cos(t), Y: radius * math.Sin(t)} })
}

// A straight capped tube is a prism over a regular polygon: exact volume and area.
func TestTubePrism(t *testing.T) {
	const around, radius, length = 24, 3.0, 10.0
	tube := RoundTube([]r3.Vec{{X: 1}, {X: 4, Y: 0}, {X: 1 + length}}, radius)
	m := tube.Mesh(around, true)
	if !m.Watertight() || m.Topology().Euler != 2 {
		t.Fatalf("capped tube does not close: %+v", m.Topology())
	}
	polygon := around / 2.0 * radius * radius * math.Sin(2*math.Pi/around)
	near(t, "volume", m.Volume(), polygon*length, 1e-9)
	near(t, "area", m.Area(), 2*polygon+around*2*radius*math.Sin(math.Pi/around)*length, 1e-9)
	if open := tube.Mesh(around, false); open.Topology().BoundaryEdges != 2*around {
		t.Errorf("open tube has %d boundary edges, want %d", open.Topology().BoundaryEdges, 2*around)
	}
}

// The volume of a bent oval tube tends to π·a·b·length (Pappus) as the mesh is refined, with order 2.
func TestTubeOvalVolume(t *testing.T) {
	volume := func(n int) float64 {
		tube := Tube{Centre: make([]r3.Vec, n+1), Radius: make([]float64, n+1), Second: make([]float64, n+1)}
		for i := range tube.Centre {
			s, c := math.Sincos(math.Pi * float64(i) / float64(n))
			tube.Centre[i], tube.Radius[i], tube.Second[i] = r3.Vec{X: 25 * c, Y: 25 * s}, 2, 4
		}
		return tube.Mesh(n, true).Volume()
	}
	exact := math.Pi * 2 * 4 * math.Pi * 25
	e1, e2 := exact-volume(40), exact-volume(80)
	near(t, "volume", volume(80), exact, 2e-3*exact)
	near(t, "order", math.Log2(e1/e2), 2, 0.1)
}

// Frames stay orthonormal and do not jump, also where the tube turns through Up.
func TestTubeFrames(t *testing.T) {
	line := make([]r3.Vec, 101)
	for i := range line {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 100)
		line[i] = r3.Vec{X: 20 * c, Z: 20 * s, Y: 0.05 * float64(i)} // passes ±z twice
	}
	frames := RoundTube(line, 1).Frames()
	for i, f := range frames {
		near(t, "|U|", r3.Norm(f.U), 1, 1e-12)
		near(t, "U·T", r3.Dot(f.U, f.T), 0, 1e-12)
		near(t, "U×V·T", r3.Dot(r3.Cross(f.U, f.V), f.T), 1, 1e-12)
		if i > 0 && r3.Dot(f.U, frames[i-1].U) < math.Cos(0.8) {
			t.Errorf("frame turns by %.2f rad at point %d", math.Acos(r3.Dot(f.U, frames[i-1].U)), i)
		}
	}
}

// Loft of parallel segments is a flat rectangle; the front and the fields are as documented.
func TestLoftRectangle(t *testing.T) {
	var sections [][]r3.Vec
	for i := range 5 {
		sections = append(sections, []r3.Vec{{X: float64(i)}, {X: float64(i), Y: 3}})
	}
	m := Loft(sections, 7, false)
	near(t, "area", m.Area(), 12, 1e-12)
	for _, n := range m.Normals(nil) {
		near(t, "normal", n.Z, 1, 1e-12)
	}
	if err := m.Check(); err != nil {
		t.Error(err)
	}
	near(t, "along at the end", m.Field("along")[4*7], 1, 0)
	near(t, "across at the margin", m.Field("across")[6], 1, 0)
	solid := m.Thicken(0.5)
	if !solid.Watertight() || solid.Topology().Euler != 2 {
		t.Errorf("thickened sheet does not close: %+v", solid.Topology())
	}
	near(t, "volume", solid.Volume(), 12*0.5, 1e-12)
}

// A leaflet whose sections shrink to a point at both commissures closes when welded and thickened.
func TestLeafletSolid(t *testing.T) {
	a := mustAnnulus(t, normalShape)
	var sections [][]r3.Vec
	for i := range 25 {
		phi := math.Pi + math.Pi*float64(i)/24
		p := a.At(phi)
		depth := 14 * math.Sin(math.Pi*float64(i)/24)
		dir := r3.Scale(-1, a.Outward(phi))
		sections = append(sections, []r3.Vec{p, r3.Add(p, r3.Scale(depth/2, dir)), r3.Add(p, r3.Vec{X: depth * 0.6 * dir.X, Y: depth * 0.6 * dir.Y, Z: -depth * 0.6})})
	}
	open := Loft(sections, 9, false).Weld(1e-6)
	if d := open.Topology(); d.DegenerateFaces != 0 || d.NonManifoldEdges != 0 || d.BoundaryEdges == 0 {
		t.Fatalf("leaflet sheet: %+v", d)
	}
	solid := open.Thicken(1)
	if !solid.Watertight() {
		t.Fatalf("leaflet solid does not close: %+v", solid.Topology())
	}
	v := solid.Volume()
	near(t, "volume against area × thickness", v, open.Area(), 0.05*open.Area())
	if err := solid.Check(); err != nil {
		t.Error(err)
	}
	mirrored := solid.MirrorX()
	near(t, "mirrored volume", mirrored.Volume(), v, 1e-9*v)
	near(t, "flipped volume", solid.Flip().Volume(), -v, 1e-9*v)
}

// Volume does not depend on the place; area and volume scale by 2 and 3; a hole is noticed.
func TestMeshInvariants(t *testing.T) {
	base := RoundTube([]r3.Vec{{}, {X: 3, Y: 1}, {X: 6, Z: 2}}, 1).Mesh(9, true)
	rapid.Check(t, func(rt *rapid.T) {
		d := r3.Vec{X: rapid.Float64Range(-50, 50).Draw(rt, "x"), Y: rapid.Float64Range(-50, 50).Draw(rt, "y"), Z: rapid.Float64Range(-50, 50).Draw(rt, "z")}
		k := rapid.Float64Range(0.1, 10).Draw(rt, "scale")
		rot := r3.NewRotation(rapid.Float64Range(-3, 3).Draw(rt, "angle"), r3.Vec{X: 1, Y: 2, Z: 3})
		m := &Mesh{Faces: base.Faces, Vertices: make([]r3.Vec, len(base.Vertices))}
		for i, v := range base.Vertices {
			m.Vertices[i] = r3.Add(d, r3.Scale(k, rot.Rotate(v)))
		}
		near(rt, "area", m.Area(), k*k*base.Area(), 1e-9*k*k*base.Area())
		near(rt, "volume", m.Volume(), k*k*k*base.Volume(), 1e-8*k*k*k*base.Volume())
		gone := rapid.IntRange(0, len(base.Faces)-1).Draw(rt, "face")
		m.Faces = append(append([][3]int32{}, base.Faces[:gone]...), base.Faces[gone+1:]...)
		if m.Watertight() || m.Topology().BoundaryEdges != 3 {
			rt.Errorf("missing face %d not noticed: %+v", gone, m.Topology())
		}
	})
}

func TestMergeKeepsFields(t *testing.T) {
	a := &Mesh{Vertices: make([]r3.Vec, 2)}
	a.SetField("gap", "mm", []float64{1, 2})
	b := &Mesh{Vertices: make([]r3.Vec, 1)}
	b.SetField("force", "N", []float64{3})
	m := Merge(a, b)
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	if g := m.Field("gap"); g[0] != 1 || g[1] != 2 || !math.IsNaN(g[2]) {
		t.Errorf("gap = %v", g)
	}
	if f := m.Field("force"); !math.IsNaN(f[0]) || f[2] != 3 {
		t.Errorf("force = %v", f)
	}
}

// The mesh of the minimal surface has the area of the minimal surface, within its own faceting (order 2).
func TestMinimalSurfaceMesh(t *testing.T) {
	s, _ := NewMinimalSurface(saddleCircle(0.3, 256), 0)
	a, b := s.Mesh(24, 96), s.Mesh(48, 192)
	near(t, "area, extrapolated", (4*b.Area()-a.Area())/3, s.AreaMM2, 5e-6*s.AreaMM2)
	if b.FaceVector(0).Z <= 0 || b.Topology().Euler != 1 {
		t.Errorf("the mesh looks down or is not a disc: %+v", b.Topology())
	}
}
