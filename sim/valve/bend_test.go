package valve

import (
	"math"
	"testing"

	"annuloscope/sim/repair"
)

// A bend of 90° in a vein of clearance c between the anchors swallows c·π/2 of tether (geometry) and is charged to slack;
// a bend beyond the far anchor costs nothing.
func TestBendTakesUpTether(t *testing.T) {
	c := caseOf(t, "functional", repair.Must(repair.SinusBand))
	straight, _ := solvedRing(t, c)
	set := func(path string, v float64) {
		if err := c.Patient.Set(path, v); err != nil {
			t.Fatal(err)
		}
	}
	set("sinus.bend_deg", 90)
	set("sinus.bend_mm", 50)
	bent, in := solvedRing(t, c)
	b, err := newBaseline(c.Patient)
	if err != nil {
		t.Fatal(err)
	}
	clearance := b.shape.radiusAt(&c.Patient, 50) - bandRadiusMM
	if got := in.Band.SlackMM; math.Abs(got-clearance*math.Pi/2) > 1e-6 {
		t.Errorf("slack %g mm, want %g", got, clearance*math.Pi/2)
	}
	if bent.Attribution.ActualMM >= straight.Attribution.ActualMM || bent.Attribution.Cause("slack").MM <= straight.Attribution.Cause("slack").MM {
		t.Errorf("straight %+v, bent %+v", straight.Attribution, bent.Attribution)
	}
	set("sinus.bend_mm", 110)
	if beyond, _ := solvedRing(t, c); math.Abs(beyond.Attribution.ActualMM-straight.Attribution.ActualMM) > 1e-6 {
		t.Errorf("a bend beyond the far anchor changes %g to %g mm", straight.Attribution.ActualMM, beyond.Attribution.ActualMM)
	}
}
