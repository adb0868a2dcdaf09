package meshes_test

import (
	"math"
	"testing"

	"annuloscope/geometry"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/meshes"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

func solved(t *testing.T, steps ...repair.Step) valve.Report {
	t.Helper()
	c := casefile.Case{Patient: anatomy.Normal(), Repairs: steps}
	r, err := valve.Solve(c, valve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Every part is sound: finite, faces in range, manifold; solids close and look outward; open leaflets look to the atrium.
func TestPartsAreSound(t *testing.T) {
	for _, kind := range []repair.Kind{repair.SinusBand, repair.FullRing, repair.EdgeClip, repair.PosteriorBand} {
		r := solved(t, repair.Must(kind))
		for _, o := range []meshes.Options{{}, {ThicknessMM: 1}, {Diastole: true}} {
			for _, p := range meshes.Parts(&r.Scene.After, &r.Scene.Before, o) {
				if err := p.Mesh.Check(); err != nil {
					t.Errorf("%s, %s: %v", kind, p.Name, err)
				}
				top := p.Mesh.Topology()
				if top.NonManifoldEdges != 0 || top.DegenerateFaces != 0 || len(p.Mesh.Faces) == 0 {
					t.Errorf("%s, %s: %+v", kind, p.Name, top)
				}
				if p.Solid != p.Mesh.Watertight() || p.Solid && p.Mesh.Volume() <= 0 {
					t.Errorf("%s, %s: solid %v, watertight %v, volume %g", kind, p.Name, p.Solid, p.Mesh.Watertight(), p.Mesh.Volume())
				}
				if !p.Solid {
					up := 0.0
					for i := range p.Mesh.Faces {
						up += p.Mesh.FaceVector(i).Z
					}
					if up <= 0 {
						t.Errorf("%s, %s looks away from the atrium", kind, p.Name)
					}
				}
			}
		}
	}
}

func part(t *testing.T, ps []meshes.Part, name string) *geometry.Mesh {
	t.Helper()
	for _, p := range ps {
		if p.Name == name {
			return p.Mesh
		}
	}
	t.Fatalf("no part %s", name)
	return nil
}

func highest(v []float64) float64 {
	out := math.Inf(-1)
	for _, x := range v {
		out = max(out, x)
	}
	return out
}

// Fields are the Scene's numbers: displacement nothing before and the largest move after, contact, force, narrowing.
func TestFields(t *testing.T) {
	r := solved(t, repair.Must(repair.SinusBand))
	before := meshes.Parts(&r.Scene.Before, &r.Scene.Before, meshes.Options{})
	after := meshes.Parts(&r.Scene.After, &r.Scene.Before, meshes.Options{})
	if d := highest(part(t, before, "annulus").Field("displacement")); d != 0 {
		t.Errorf("the state before has moved %g mm", d)
	}
	most := 0.0
	for i, p := range r.Scene.After.Annulus {
		most = max(most, r3.Norm(r3.Sub(p, r.Scene.Before.Annulus[i])))
	}
	if d := highest(part(t, after, "annulus").Field("displacement")); d != most || d < 0.5 {
		t.Errorf("the annulus has moved %g mm, the scene says %g", d, most)
	}
	contact := 0.0
	for _, s := range r.Scene.After.Stations {
		contact = max(contact, s.ContactMM)
	}
	if got := highest(part(t, after, "leaflet-anterior").Field("contact")); got != contact {
		t.Errorf("contact %g, scene %g", got, contact)
	}
	if got := highest(part(t, after, "vein").Field("force")); got != highest(r.Scene.After.VeinContact) || got <= 0 {
		t.Errorf("force %g, scene %g", got, highest(r.Scene.After.VeinContact))
	}
	if got := highest(part(t, after, "artery").Field("narrowing")); got != highest(r.Scene.After.ArteryNarrow) {
		t.Errorf("narrowing %g, scene %g", got, highest(r.Scene.After.ArteryNarrow))
	}
}

// The volume of the annulus tube is its length times its section, by Pappus, less the 24-gon's loss.
func TestAnnulusTubeVolume(t *testing.T) {
	r := solved(t)
	m := part(t, meshes.Parts(&r.Scene.Before, &r.Scene.Before, meshes.Options{}), "annulus")
	section := 0.8 * 0.8 * 12 * math.Sin(2*math.Pi/24)
	want := section * geometry.Perimeter(r.Scene.Before.Annulus)
	if got := m.Volume(); math.Abs(got-want) > 0.01*want {
		t.Errorf("volume %g mm³, length × section %g", got, want)
	}
}

func TestBadThicknessPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	r := solved(t)
	meshes.Parts(&r.Scene.Before, &r.Scene.Before, meshes.Options{ThicknessMM: -1})
}
