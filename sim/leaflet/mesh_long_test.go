//go:build long

package leaflet

import (
	"math"
	"testing"
)

// Meshes from 72×12 to 160×26 against the finest: depth, middle contact, opening, opening with a bond, and the slot of a
// wide cut, within 5 % (issue 8; shell.md measured 1 to 6 % on an earlier trial).
func TestMeshStudy(t *testing.T) {
	flail := standard(30)
	flail.Chords = []ChordChange{{Leaflet: Posterior, WidthMM: 28, Ruptured: true}}
	read := func(columns, rows int) map[string]float64 {
		out := map[string]float64{}
		r := solved(t, columns, rows, standard(30))
		out["depth, mm"], out["contact A2P2, mm"] = r.DepthMM, r.ContactA2P2MM
		out["opening, mm²"] = solved(t, columns, rows, opened(28, 4)).OpenMM2
		out["opening with a bond, mm²"] = solved(t, columns, rows, opened(28, 4, Bond{WidthMM: 5, ReachMM: 6, Hold: 1})).OpenMM2
		out["slot of a flail, mm²"] = solved(t, columns, rows, flail).SlotMM2
		return out
	}
	finest := read(160, 26)
	for _, m := range [][2]int{{DragColumns, DragRows}, {ShownColumns, ShownRows}, {128, 21}} {
		for name, v := range read(m[0], m[1]) {
			off := v/finest[name] - 1
			t.Logf("%d×%d %s: %.2f, finest %.2f (%+.1f %%)", m[0], m[1], name, v, finest[name], 100*off)
			if math.Abs(off) > 0.05 {
				t.Errorf("%d×%d %s: %+.1f %% from 160×26, issue 8 asks for 5 %%", m[0], m[1], name, 100*off)
			}
		}
	}
}
