//go:build long

package leaflet

import "testing"

// 150 random anatomies × 5 states, cold: nothing non-finite, unconverged or crossing.
func TestRandomAnatomies(t *testing.T) {
	failed, nonFinite := soak(t, ShownColumns, ShownRows, 150)
	t.Logf("not converged, of 150 each: %v %v; non-finite numbers %d", stateNames, failed, nonFinite)
	if nonFinite > 0 {
		t.Errorf("%d non-finite numbers", nonFinite)
	}
	for i, f := range failed {
		if f > 0 {
			t.Errorf("%s: %d of 150 not converged", stateNames[i], f)
		}
	}
}
