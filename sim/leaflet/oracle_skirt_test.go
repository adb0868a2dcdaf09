package leaflet

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"annuloscope/sim/ccxtest"

	"gonum.org/v1/gonum/spatial/r3"
)

// The hanging skirt, opened by a small pressure, without contact, against CalculiX (S6 shells, nonlinear geometry): linear
// material, E·h = 2/3 N/mm, ν = 1/3, h = 1 mm, so D = E·h³/12(1−ν²) = 0.0625 N·mm = 3·kb. Once it hangs free, once on chords.
const (
	skirtColumns, skirtRows = 48, 9
	skirtPressure           = 1e-3 // N/mm², outwards
	skirtBend               = 0.0625 / 3

	// The chords: from the two tips of shell.md "Rest shape" to every fourth vertex of the margin of their side and to
	// every eighth half way up, slack by 0.5 mm as there, of 0.5 N/mm so that neither chord nor sheet is rigid.
	skirtChordK, skirtSlack = 0.5, 0.5
)

// skirt has fine × fine quads for one of the deck; with 2 it has the nodes that CalculiX's quadratic triangles have.
func skirt(chords bool, fine int) *sheet {
	a := NewAnatomy(EllipseAnnulus(28, 38, 6, 128))
	h := newShape(&a, fine*skirtColumns, fine*(skirtRows-1)+1)
	s := newSheet(h.rest, h.s, h.triangles(), func(int) r3.Vec { return r3.Vec{X: 0.6, Y: 0.5, Z: 0.1} }, linear(1), skirtBend, nil, nil)
	if chords {
		hang := func(v int) {
			tip := r3.Vec{X: math.Copysign(9, s.rest[v].X), Y: -8, Z: -20}
			s.chords = append(s.chords, chord{v: [4]int32{int32(v), int32(v), int32(v), int32(v)}, w: [4]float64{1}, tip: tip,
				length: r3.Norm(r3.Sub(s.rest[v], tip)) + skirtSlack, k: skirtChordK})
		}
		for j := 0; j < skirtColumns; j += 4 {
			hang(finer((skirtRows-1)*skirtColumns+j, fine))
		}
		for j := 2; j < skirtColumns; j += 8 {
			hang(finer(skirtRows/2*skirtColumns+j, fine))
		}
	}
	s.finish()
	s.pressure = -skirtPressure
	return s
}

// finer is the vertex of a finer skirt at vertex v of the deck's.
func finer(v, fine int) int {
	return fine*(v/skirtColumns)*fine*skirtColumns + fine*(v%skirtColumns)
}

// ccxSkirt is the model; its nodes come in the order of the vertices.
func ccxSkirt(file string, chords bool) ccxtest.Model {
	return ccxtest.Model{File: file, Slow: true, Deck: func(b *bytes.Buffer) (nodes []int) {
		s := skirt(chords, 1)
		fmt.Fprintln(b, "*NODE,NSET=ALL")
		for i, p := range s.rest {
			fmt.Fprintf(b, "%d,%.9f,%.9f,%.9f\n", i+1, p.X, p.Y, p.Z)
			nodes = append(nodes, i+1)
		}
		next := len(s.rest) + 1
		mid := map[[2]int32]int{}
		var held []int
		for i := range s.fixed {
			held = append(held, i+1)
		}
		between := func(p, q int32) int {
			key := [2]int32{min(p, q), max(p, q)}
			if n, ok := mid[key]; ok {
				return n
			}
			m := r3.Scale(0.5, r3.Add(s.rest[p], s.rest[q]))
			fmt.Fprintf(b, "%d,%.9f,%.9f,%.9f\n", next, m.X, m.Y, m.Z)
			mid[key] = next
			if int(p) < s.fixed && int(q) < s.fixed {
				held = append(held, next)
			}
			next++
			return next - 1
		}
		var elements strings.Builder
		for i, v := range s.tris {
			fmt.Fprintf(&elements, "%d,%d,%d,%d,%d,%d,%d\n", i+1, v[0]+1, v[1]+1, v[2]+1, between(v[0], v[1]), between(v[1], v[2]), between(v[2], v[0]))
		}
		fmt.Fprintf(b, "*ELEMENT,TYPE=S6,ELSET=SKIRT\n%s", elements.String())
		springs(b, s, next, len(s.tris)+1, &held)
		fmt.Fprintf(b, "*BOUNDARY\n")
		for _, n := range held {
			fmt.Fprintf(b, "%d,1,3\n", n)
		}
		fmt.Fprintf(b, "*MATERIAL,NAME=M\n*ELASTIC\n0.6666667,0.3333333\n*SHELL SECTION,ELSET=SKIRT,MATERIAL=M\n1.0\n")
		// Here a positive pressure acts along the element normal (seen in the run: it closed the skirt, which has no
		// equilibrium without contact); the normals point into the lumen, so opening is negative.
		fmt.Fprintf(b, "*STEP,NLGEOM,INC=1000\n*STATIC\n0.02,1.,1e-6,0.05\n*DLOAD\nSKIRT,P,%g\n%s", -skirtPressure, ccxtest.Print)
		return nodes
	}}
}

// springs writes the chords of a sheet as springs between a vertex and its tip, each with the force over its lengthening
// that chord.add has, the blend from slack to taut in 12 pieces.
func springs(b *bytes.Buffer, s *sheet, node, element int, held *[]int) {
	for i, c := range s.chords {
		fmt.Fprintf(b, "*NODE\n%d,%.9f,%.9f,%.9f\n*ELEMENT,TYPE=SPRINGA,ELSET=C%d\n%d,%d,%d\n*SPRING,NONLINEAR,ELSET=C%d\n",
			node+i, c.tip.X, c.tip.Y, c.tip.Z, i, element+i, c.v[0]+1, node+i, i)
		*held = append(*held, node+i)
		slack := c.length - r3.Norm(r3.Sub(s.rest[c.v[0]], c.tip)) // lengthening at which it is taut
		fmt.Fprintf(b, "0.,%.9f\n", slack-100)
		for k := range 13 {
			e := slack + chordBlend*(float64(k)/6-1)
			_, v, _ := ramp(e-slack, chordBlend)
			fmt.Fprintf(b, "%.9f,%.9f\n", c.k*v, e)
		}
		fmt.Fprintf(b, "%.9f,%.9f\n", c.k*100, slack+100)
	}
}

// The free skirt: shell.md had 2.5-5.3 % in its own comparison; limit 8 %, 4.5 and 5.7 % when this was written. On a skirt of
// the deck's own quads (fine = 1) it is 5.7 and 7.3 %, on finer ones than here no less. What is left, and the 3 % of pull, is
// not the mesh's: our bending has no coupling of the two curvatures (CalculiX: ν = 1/3) and takes the flat sheet, not the
// curved skirt, for its rest.
func TestSkirtAgainstCalculiX(t *testing.T) {
	const fine = 2
	for _, c := range []struct {
		file   string
		chords bool
	}{{"testdata/ccx_skirt.txt", false}, {"testdata/ccx_skirt_chords.txt", true}} {
		want := ccxSkirt(c.file, c.chords).Displacements(t, ccxAgain)
		if len(want) != skirtColumns*skirtRows {
			t.Fatalf("%s: %d stored displacements for %d vertices", c.file, len(want), skirtColumns*skirtRows)
		}
		s := skirt(c.chords, fine)
		settleDamped(t, s, 1e-3, 1e-5, 3000)
		got := make([]r3.Vec, len(want))
		at := map[int32]r3.Vec{} // CalculiX's place of a vertex of ours
		largest := 0.0
		for v, u := range want {
			w := finer(v, fine)
			got[v], at[int32(w)] = r3.Sub(s.x[w], s.rest[w]), r3.Add(s.rest[w], u)
			largest = math.Max(largest, r3.Norm(u))
		}
		pull, pulled := 0.0, 0.0 // all chords, ours and from CalculiX's displacements
		for i := range s.chords {
			k := &s.chords[i]
			_, v, _ := ramp(r3.Norm(r3.Sub(at[k.v[0]], k.tip))-k.length, chordBlend)
			pull, pulled = pull+k.tension, pulled+k.k*v
		}
		d := ccxtest.Apart(got, want)
		t.Logf("chords %d: rms difference %.1f %% of the rms displacement, which reaches %.2f mm; all chords pull %.4f N, in CalculiX %.4f N",
			len(s.chords), 100*d, largest, pull, pulled)
		if d > 0.08 {
			t.Errorf("%s: differs from CalculiX by %.1f %%, limit 8 %%", c.file, 100*d)
		}
		if c.chords && (pulled < 0.1 || math.Abs(pull/pulled-1) > 0.05) {
			t.Errorf("the chords pull %g N together, in CalculiX %g N, tolerance 5 %%", pull, pulled)
		}
	}
}
