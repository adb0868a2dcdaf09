package leaflet

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"annuloscope/sim/ccxtest"

	"gonum.org/v1/gonum/spatial/r3"
)

// A long strip under pressure, held at its edge and free to turn there, against CalculiX (quadratic shells S8,
// geometrically nonlinear): 20 by 40 mm, E·h = 2/3 N/mm, ν = 1/3, h = 0.3 mm, 7.5e-4 N/mm². Bending and membrane both
// carry: the plate alone would sag far more, the membrane of physics.md D3 by 1.99 mm.
const (
	ccxStripX, ccxStripY = 10, 20
	ccxStripWide         = 20.0 // mm
	ccxStripThick        = 0.3
	ccxStripPressure     = 7.5e-4
)

// ccxAgain: whether CalculiX is run again and compared with the stored answer; set by -tags long.
var ccxAgain = false

// ccxStrip is the model; its corners come in the order of plate.
var ccxStrip = ccxtest.Model{File: "testdata/ccx_strip.txt", Slow: true, Deck: func(b *bytes.Buffer) (corners []int) {
	const nx, ny = ccxStripX, ccxStripY
	// Corners and mid-sides lie on a grid of half steps; the middle of an element is not used.
	id := func(i, j int) int { return j*(2*nx+1) + i + 1 }
	var held bytes.Buffer
	fmt.Fprintln(b, "*NODE,NSET=ALL")
	for j := range 2*ny + 1 {
		for i := range 2*nx + 1 {
			if i%2 == 1 && j%2 == 1 {
				continue
			}
			fmt.Fprintf(b, "%d,%.9f,%.9f,0\n", id(i, j), ccxStripWide*(float64(i)/(2*nx)-0.5), 2*ccxStripWide*(float64(j)/(2*ny)-0.5))
			if i == 0 || j == 0 || i == 2*nx || j == 2*ny {
				fmt.Fprintf(&held, "%d,1,3\n", id(i, j))
			}
		}
	}
	fmt.Fprintln(b, "*ELEMENT,TYPE=S8,ELSET=STRIP")
	for j := range ny {
		for i := range nx {
			x, y := 2*i, 2*j
			fmt.Fprintf(b, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", j*nx+i+1, id(x, y), id(x+2, y), id(x+2, y+2), id(x, y+2), id(x+1, y), id(x+2, y+1), id(x+1, y+2), id(x, y+1))
		}
	}
	fmt.Fprintf(b, "*BOUNDARY\n%s*MATERIAL,NAME=M\n*ELASTIC\n%.9f,0.333333333\n*SHELL SECTION,ELSET=STRIP,MATERIAL=M\n%g\n", held.String(), 2./3/ccxStripThick, ccxStripThick)
	fmt.Fprintf(b, "*STEP,NLGEOM,INC=1000\n*STATIC\n0.2,1.,1e-6,0.5\n*DLOAD\nSTRIP,P,%g\n%s", ccxStripPressure, ccxtest.Print)
	for j := range ny + 1 {
		for i := range nx + 1 {
			corners = append(corners, id(2*i, 2*j))
		}
	}
	return corners
}}

// The stored answer is the one CalculiX gives today, where it is installed, and ours agrees with it within 3 %.
func TestPressurisedStripAgainstCalculiX(t *testing.T) {
	stored := ccxStrip.Displacements(t, ccxAgain)
	pts, tris := plate(2*ccxStripX, 2*ccxStripY, ccxStripWide, 2*ccxStripWide)
	edge := func(p r3.Vec) bool {
		return math.Abs(p.X) > 0.4999*ccxStripWide || math.Abs(p.Y) > 0.9999*ccxStripWide
	}
	// Plate rigidity E·h³/12(1−ν²) = 3·bend (TestPlateBending).
	const bend = 2. / 3 * ccxStripThick * ccxStripThick / 12 / (1 - 1./9) / 3
	s, where := flat(pts, tris, edge, linear(1), bend)
	s.finish()
	s.pressure = ccxStripPressure
	for v := s.fixed; v < len(s.x); v++ {
		s.x[v].Z = 2 * (1 - 4*s.rest[v].X*s.rest[v].X/(ccxStripWide*ccxStripWide))
	}
	settle(t, s, 1e-6, 300)
	var got []r3.Vec
	for j := range ccxStripY + 1 {
		for i := range ccxStripX + 1 {
			v := where[2*j*(2*ccxStripX+1)+2*i]
			got = append(got, r3.Sub(s.x[v], s.rest[v]))
		}
	}
	if len(stored) != len(got) {
		t.Fatalf("%d stored displacements for %d corners", len(stored), len(got))
	}
	middle := len(got) / 2
	d := ccxtest.Apart(got, stored)
	t.Logf("sag in the middle %.4f mm, CalculiX %.4f mm; rms difference %.2f %%", got[middle].Z, stored[middle].Z, 100*d)
	if d > 0.03 {
		t.Errorf("differs from CalculiX by %.2f %%, limit 3 %%", 100*d)
	}
}
