package ring

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"annuloscope/sim/ccxtest"

	"gonum.org/v1/gonum/spatial/r3"
)

// A plane elastic ring on an elastic foundation, drawn together by a cable between two points of its posterior half,
// against CalculiX (quadratic beams B32, springs to the ground, geometrically nonlinear). EI = 100 N·mm² and EA = 1200 N
// of a square of 1 mm with E = 1200 N/mm², radius 20 mm, foundation 0.02 N/mm². By symmetry the cable keeps its direction,
// so that its pull is the same dead load there.
const (
	ccxPoints     = 128
	ccxFoundation = 0.02 // N/mm²
)

// ccxTensions of the cable, N: at the first everything is nearly linear.
var ccxTensions = []float64{0.05, 3}

// The cable's ends, at 225° and 315°.
const ccxFrom, ccxTo = 5 * ccxPoints / 8, 7 * ccxPoints / 8

func ccxRing(tension float64) *Input {
	in := circle(ccxPoints)
	c := &in.Constants
	c.AnnulusTension, c.AnnulusCompression, c.AnnulusBending = 1200, 1200, 100
	c.FoundationSeptal, c.FoundationCommissural = ccxFoundation, ccxFoundation
	in.Loads = []Load{{Point: ccxFrom, Force: r3.Vec{X: tension}}, {Point: ccxTo, Force: r3.Vec{X: -tension}}}
	return in
}

// ccxModel is the same in CalculiX.
func ccxModel(tension float64) ccxtest.Model {
	return ccxtest.Model{File: fmt.Sprintf("testdata/ccx_ring_%gN.txt", tension), Deck: func(b *bytes.Buffer) (nodes []int) {
		deck(b, tension)
		for i := range ccxPoints {
			nodes = append(nodes, i+1)
		}
		return nodes
	}}
}

func deck(b *bytes.Buffer, tension float64) {
	in := ccxRing(tension)
	p := in.Annulus.Rest
	fmt.Fprintln(b, "*NODE,NSET=ALL")
	for i, q := range p {
		fmt.Fprintf(b, "%d,%.9f,%.9f,0\n", i+1, q.X, q.Y)
	}
	fmt.Fprintln(b, "*ELEMENT,TYPE=B32,ELSET=RING")
	for e := 0; e < ccxPoints/2; e++ {
		fmt.Fprintf(b, "%d,%d,%d,%d\n", e+1, 2*e+1, 2*e+2, (2*e+2)%ccxPoints+1)
	}
	fmt.Fprintf(b, "*MATERIAL,NAME=M\n*ELASTIC\n1200,0\n*BEAM SECTION,ELSET=RING,MATERIAL=M,SECTION=RECT\n1.,1.\n0,0,1\n")
	h := r3.Norm(r3.Sub(p[1], p[0]))
	for d := 1; d <= 2; d++ {
		fmt.Fprintf(b, "*ELEMENT,TYPE=SPRING1,ELSET=GROUND%d\n", d)
		for i := range p {
			fmt.Fprintf(b, "%d,%d\n", 1000*d+i+1, i+1)
		}
		fmt.Fprintf(b, "*SPRING,ELSET=GROUND%d\n%d\n%.12g\n", d, d, ccxFoundation*h)
	}
	fmt.Fprintf(b, "*BOUNDARY\nALL,3,3\n*STEP,NLGEOM,INC=200\n*STATIC\n0.1,1.,1e-5,0.2\n*CLOAD\n")
	for _, l := range in.Loads {
		fmt.Fprintf(b, "%d,1,%.12g\n%d,2,%.12g\n", l.Point+1, l.Force.X, l.Point+1, l.Force.Y)
	}
	b.WriteString(ccxtest.Print)
}

// The stored answers are those CalculiX gives today (where it is installed), and ours agree with them: within 1 % for a
// small load. For a large one (3.2 mm) the difference is the package's own simplification, bending and foundation in the rest
// frame (doc.go), and is stated: 7.5 % when this was written, limit 10 %.
func TestRingAgainstCalculiX(t *testing.T) {
	for i, tension := range ccxTensions {
		want := ccxModel(tension).Displacements(t, true)
		if len(want) != ccxPoints {
			t.Fatalf("%d points for %g N", len(want), tension)
		}
		in := ccxRing(tension)
		r := Solve(in)
		if !r.Status.OK() {
			t.Fatal(r.Status)
		}
		got := make([]r3.Vec, ccxPoints)
		largest := 0.0
		for k := range got {
			got[k] = r3.Sub(r.Annulus[k], in.Annulus.Rest[k])
			largest = math.Max(largest, r3.Norm(want[k]))
		}
		d := ccxtest.Apart(got, want)
		t.Logf("%g N: largest displacement %.3f mm, rms difference %.2f %%", tension, largest, 100*d)
		if limit := []float64{0.01, 0.1}[i]; d > limit {
			t.Errorf("%g N: differs from CalculiX by %.2f %%, limit %g %%", tension, 100*d, 100*limit)
		}
		// The package's own cable, shortened by what the dead load took off its path and by its own give, pulls as hard.
		in.Loads = nil
		chord := func(p []r3.Vec) float64 { return r3.Norm(r3.Sub(p[ccxFrom], p[ccxTo])) }
		k := in.Constants.BandStiffness
		give := tension/k + CableToeMM/2
		if tension < k*CableToeMM/2 { // the toe of the cable: tension k·x²/2w
			give = math.Sqrt(2 * CableToeMM * tension / k)
		}
		in.Ties = []Tie{{A: ccxFrom, B: ccxTo, ShorteningMM: chord(in.Annulus.Rest) - chord(r.Annulus) + give}}
		if pull := Solve(in).Ties[0].TensionN; math.Abs(pull-tension) > 1e-3*tension {
			t.Errorf("the cable pulls with %g N, the load was %g N", pull, tension)
		}
	}
}
