package leaflet

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"annuloscope/sim/ccxtest"

	"gonum.org/v1/gonum/spatial/r3"
)

// A contact patch of two sheets of different size, so that no vertex faces another, pinned at their edges 2.7 mm apart and
// pressed together by the same pressure from outside, against CalculiX (S4 shells, face-to-face penalty contact, nonlinear
// geometry): E·h = 2/3 N/mm, ν = 1/3. Our barrier keeps middle surfaces apart; CalculiX keeps faces apart, so its thickness
// is the distance at which the barrier balances the pressure.
const (
	patchCells    = 24
	patchPressure = 2e-3 // N/mm²
	patchPenalty  = 0.2  // N/mm³: 0.01 mm of overlap at that pressure
)

// The lower and the upper sheet: side of the square and height of the edge, mm.
var patchSheets = [2][2]float64{{16, -1.2}, {20, 1.5}}

// patchThickness is where the barrier balances the pressure: 2·κ·|b′(y)| = p, d = y·d̂.
func patchThickness() float64 {
	lo, hi := 0.01, 1.0
	for range 60 {
		y := (lo + hi) / 2
		if _, d, _ := barrier(y); 2*contactStiffness*-d > patchPressure {
			lo = y
		} else {
			hi = y
		}
	}
	return lo * contactThickness
}

// ccxPatch is the model; its nodes come sheet by sheet in the order of plate.
var ccxPatch = ccxtest.Model{File: "testdata/ccx_patch.txt", Slow: true, Deck: func(b *bytes.Buffer) (nodes []int) {
	const row = patchCells + 1
	h := patchThickness()
	var held, cells bytes.Buffer
	fmt.Fprintln(b, "*NODE,NSET=ALL")
	for k, sheet := range patchSheets {
		pts, _ := plate(patchCells, patchCells, sheet[0], sheet[0])
		first := 1 + k*row*row
		fmt.Fprintf(&cells, "*ELEMENT,TYPE=S4,ELSET=SHEET%d\n", k)
		for i, p := range pts {
			n := first + i
			nodes = append(nodes, n)
			fmt.Fprintf(b, "%d,%.9f,%.9f,%.9f\n", n, p.X, p.Y, sheet[1])
			x, y := i%row, i/row
			if x == 0 || y == 0 || x == patchCells || y == patchCells {
				fmt.Fprintf(&held, "%d,1,3\n", n)
			}
			if x < patchCells && y < patchCells {
				fmt.Fprintf(&cells, "%d,%d,%d,%d,%d\n", n, n, n+1, n+row+1, n+row)
			}
		}
	}
	fmt.Fprintf(b, "%s*BOUNDARY\n%s*MATERIAL,NAME=M\n*ELASTIC\n%.9f,0.333333333\n", cells.String(), held.String(), 2./3/h)
	fmt.Fprintf(b, "*SHELL SECTION,ELSET=SHEET0,MATERIAL=M\n%.9f\n*SHELL SECTION,ELSET=SHEET1,MATERIAL=M\n%.9f\n", h, h)
	fmt.Fprintf(b, "*SURFACE,NAME=TOP,TYPE=ELEMENT\nSHEET0,SPOS\n*SURFACE,NAME=BOTTOM,TYPE=ELEMENT\nSHEET1,SNEG\n")
	fmt.Fprintf(b, "*SURFACE INTERACTION,NAME=TOUCH\n*SURFACE BEHAVIOR,PRESSURE-OVERCLOSURE=LINEAR\n%g\n", patchPenalty)
	fmt.Fprintf(b, "*CONTACT PAIR,INTERACTION=TOUCH,TYPE=SURFACE TO SURFACE\nTOP,BOTTOM\n")
	fmt.Fprintf(b, "*STEP,NLGEOM,INC=1000\n*STATIC\n0.05,1.,1e-6,0.1\n*DLOAD\nSHEET0,P,%g\nSHEET1,P,%g\n%s", patchPressure, -patchPressure, ccxtest.Print)
	return nodes
}}

// The sheets lie where CalculiX has them, each far from where it would lie alone; limit 3 % as for the strip.
func TestContactPatchAgainstCalculiX(t *testing.T) {
	want := ccxPatch.Displacements(t, ccxAgain)
	got, apart := patch(t, true)
	if len(want) != len(got) {
		t.Fatalf("%d stored displacements for %d vertices", len(want), len(got))
	}
	alone, _ := patch(t, false)
	d, free := ccxtest.Apart(got, want), ccxtest.Apart(alone, want)
	const row = patchCells + 1
	middle := [2]int{row * row / 2, row*row + row*row/2}
	for k, m := range middle {
		t.Logf("sheet %d: middle moves %.3f mm, in CalculiX %.3f mm, alone %.3f mm", k, got[m].Z, want[m].Z, alone[m].Z)
	}
	theirs := patchSheets[1][1] + want[middle[1]].Z - patchSheets[0][1] - want[middle[0]].Z
	t.Logf("distance in the middle %.3f mm, in CalculiX %.3f mm; rms difference %.2f %%, without contact %.0f %%", apart, theirs, 100*d, 100*free)
	if d > 0.03 {
		t.Errorf("differs from CalculiX by %.2f %%, limit 3 %%", 100*d)
	}
	if free < 0.15 {
		t.Errorf("without contact the sheets lie only %.0f %% away: nothing is tested", 100*free)
	}
}

// patch is our answer, with or without contact, in the order of the model's nodes, and the distance in the middle.
func patch(t *testing.T, contact bool) (out []r3.Vec, apart float64) {
	t.Helper()
	wide, small := patchSheets[0][0], patchSheets[1][0]
	pts, all := twoPlates(patchCells, patchCells, [2][2]float64{{wide, wide}, {small, small}})
	sheetOf := func(q r3.Vec) [2]float64 { return patchSheets[int(q.Z/500)/2] }
	hold := func(q r3.Vec) bool {
		half := 0.4999 * sheetOf(q)[0]
		return math.Abs(q.X) > half || math.Abs(q.Y) > half
	}
	h := patchThickness()
	bend := 2. / 3 * h * h / 12 / (1 - 1./9) / 3 // plate rigidity E·h³/12(1−ν²) = 3·bend
	s, where := flat(pts, all, hold, linear(1), bend)
	if contact {
		s.contact.thickness, s.contact.stiffness, s.contact.exclusion = contactThickness, contactStiffness, 3
	}
	s.finish()
	if contact {
		s.contact.forbid(s)
	}
	s.pressure = patchPressure
	for v, q := range s.rest {
		sheet := sheetOf(q)
		s.x[v] = r3.Vec{X: q.X, Y: q.Y, Z: sheet[1]}
		if v >= s.fixed { // start away from the answer and without touching
			f := 2 / sheet[0]
			s.x[v].Z -= math.Copysign(0.6, sheet[1]) * (1 - f*f*q.X*q.X) * (1 - f*f*q.Y*q.Y)
		}
	}
	tol := 1e-5
	if !contact { // only to see how far away that is
		tol = 1e-3
	}
	settleDamped(t, s, 1e-3, tol, 3000)
	for i, q := range pts {
		v := where[i]
		out = append(out, r3.Sub(s.x[v], r3.Vec{X: q.X, Y: q.Y, Z: sheetOf(q)[1]}))
	}
	const row = patchCells + 1
	return out, s.x[where[row*row+row*row/2]].Z - s.x[where[row*row/2]].Z
}
