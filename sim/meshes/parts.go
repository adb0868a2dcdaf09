package meshes

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// Part is one mesh of a state.
type Part struct {
	Name  string // a file name without its ending
	Mesh  *geometry.Mesh
	Solid bool // closed and outward-looking; otherwise an open surface that looks to the atrium
}

// Options says which state is wanted.
type Options struct {
	Diastole    bool
	ThicknessMM float64 // of the leaflets; 0 leaves them open surfaces
}

// Parts returns the meshes of one state; rest is the state before treatment, from which displacements are measured (the
// same as now for the state before).
func Parts(now, rest *valve.Shapes, o Options) []Part {
	if o.ThicknessMM < 0 || o.ThicknessMM > MaxThicknessMM || math.IsNaN(o.ThicknessMM) {
		panic("meshes: a leaflet thickness outside 0 to MaxThicknessMM")
	}
	parts := []Part{annulusPart(now, rest, o.Diastole)}
	if o.Diastole {
		parts = append(parts, openings(now)...)
	} else {
		parts = append(parts, leaflet("leaflet-anterior", now, rest, true, o.ThicknessMM), leaflet("leaflet-posterior", now, rest, false, o.ThicknessMM))
	}
	if now.Shell != nil && !now.Shell.Closed.Empty() {
		parts = append(parts, shellParts(now.Shell, rest.Shell, o.Diastole)...)
	}
	parts = append(parts, vein(now, rest), artery(now, rest))
	if len(now.Band) > 1 {
		parts = append(parts, device(now.Band))
	}
	return parts
}

// apart is the distance of each point from its place in the other state; zero where that state has other points.
func apart(a, b []r3.Vec) []float64 {
	out := make([]float64, len(a))
	if len(a) == len(b) {
		for i := range a {
			out[i] = r3.Norm(r3.Sub(a[i], b[i]))
		}
	}
	return out
}

func annulusPart(now, rest *valve.Shapes, diastole bool) Part {
	curve, from := now.Annulus, rest.Annulus
	if diastole {
		curve, from = now.AnnulusDiastole, rest.AnnulusDiastole
	}
	m := loopTube(curve, annulusRadiusMM)
	phi, fixed := make([]float64, len(curve)), make([]float64, len(curve))
	for i, p := range curve {
		phi[i] = geometry.PhiOf(p) * 180 / math.Pi
		if i < len(now.Intertrigone) && now.Intertrigone[i] {
			fixed[i] = 1
		}
	}
	perRing(m, "displacement", "mm", apart(curve, from))
	perRing(m, "angle", "degree", phi)
	perRing(m, "intertrigone", "", fixed)
	return Part{"annulus", m, true}
}

func vein(now, rest *valve.Shapes) Part {
	m := geometry.Tube{Centre: now.Vein, Radius: now.VeinRadius}.Mesh(around, true)
	m.Fields = nil
	covered := make([]float64, len(now.Vein))
	for i, c := range now.Covered {
		if c {
			covered[i] = 1
		}
	}
	perRing(m, "station", "mm", now.VeinStation)
	perRing(m, "displacement", "mm", apart(now.Vein, rest.Vein))
	perRing(m, "on_atrium", "", covered)
	force := now.VeinContact
	if len(force) != len(now.Vein) { // no band
		force = make([]float64, len(now.Vein))
	}
	perRing(m, "force", "N/mm", force)
	return Part{"vein", m, true}
}

func artery(now, rest *valve.Shapes) Part {
	m := geometry.Tube{Centre: now.Artery, Radius: now.ArteryRadius}.Mesh(around, true)
	m.Fields = nil
	perRing(m, "sinus_station", "mm", now.ArteryStation)
	perRing(m, "displacement", "mm", apart(now.Artery, rest.Artery))
	perRing(m, "narrowing", "%", now.ArteryNarrow)
	return Part{"artery", m, true}
}

func device(line []r3.Vec) Part {
	var m *geometry.Mesh
	if n := len(line) - 1; n > 2 && line[0] == line[n] {
		m = loopTube(line[:n], deviceRadiusMM)
	} else {
		m = geometry.RoundTube(line, deviceRadiusMM).Mesh(around, true)
	}
	return Part{"device", m, true}
}

// openings are flat fans over the outlines of the open valve, looking to the atrium.
func openings(now *valve.Shapes) []Part {
	var all []*geometry.Mesh
	for k, o := range now.Orifices {
		n := len(o.Outline)
		if n < 3 {
			continue
		}
		m := &geometry.Mesh{Vertices: append(append([]r3.Vec(nil), o.Outline...), o.Centre)}
		for i := range n {
			m.Faces = append(m.Faces, [3]int32{int32(i), int32((i + 1) % n), int32(n)})
		}
		if m.FaceVector(0).Z < 0 {
			m = m.Flip()
		}
		area, number := make([]float64, n+1), make([]float64, n+1)
		for i := range area {
			area[i], number[i] = o.AreaCM2, float64(k+1)
		}
		m.SetField("anatomic_area", "cm²", area)
		m.SetField("opening", "", number)
		all = append(all, m)
	}
	if len(all) == 0 {
		return nil
	}
	return []Part{{"openings-in-plan", geometry.Merge(all...), false}}
}
