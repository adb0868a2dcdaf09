package artery

import (
	"math"
	"testing"
)

// The flow of a flattened vessel comes from the flattened lumen's conductance (physics.md F: 0.30853 at x = 0.5), in series
// with the bed, worked out here independently: drive = R·Q + extra·Q + turbulent·Q². It is far above that of a round
// narrowing that looks the same in the worst view (same sheet: reserve 3.190 at 50 % over 10 mm).
func TestFlattenedReserveUsesTheFlattenedLumen(t *testing.T) {
	const lumen, length, drive = 3.0, 10.0, 90.0
	stations := []Station{{AtMM: 0, LumenMM: lumen}, {AtMM: length / 2, LumenMM: lumen}, {AtMM: length, LumenMM: lumen}}
	half := Flatten(0.5)
	if math.Abs(half.Conductance-0.30853) > 1e-4 {
		t.Fatalf("conductance %g", half.Conductance)
	}
	bed := DefaultBed(lumen)
	got := seriesFlow(flattenedDrop(stations, []Flattened{half, half, half}), 100, bed)
	// Poiseuille baseline of physics.md F: 0.1321 mmHg for 3 mm, 10 mm, 1 mL/s.
	viscous := 0.1321 * (1/0.30853 - 1)
	jet := 1000 / (math.Pi * lumen * lumen / 4) // mm/s
	turbulent := 0.5 * 1.52 * 1060e-12 * math.Pow((1/0.69655-1)*jet, 2) / 133.322e-6
	r := drive/4 + viscous
	q := (-r + math.Sqrt(r*r+4*turbulent*drive)) / (2 * turbulent)
	if math.Abs(got.Reserve-q) > 2e-3 {
		t.Errorf("reserve %.4f, worked out %.4f", got.Reserve, q)
	}
	if round := RoundFlow(lumen, length, 0.5, 100, bed).Reserve; got.Reserve < round+0.5 {
		t.Errorf("flattened %.3f, round %.3f", got.Reserve, round)
	}
}

// The two views of one flattened lumen: 1 − x and 1 − major radius (physics.md F: x = 0.5, 1.39311); the best view shows it
// wider than it was.
func TestTwoViewsOfOneLumen(t *testing.T) {
	s := Station{LumenMM: 3.4, DepthMM: 2.2, BandNPerMM: 0.06}
	r := station(Input{PressureMMHg: 90}, s, 1, 1)
	if r.WorstViewPct <= 5 || r.BestViewPct >= 0 {
		t.Fatalf("worst %g, best %g", r.WorstViewPct, r.BestViewPct)
	}
	x := 1 - r.WorstViewPct/100
	if d := r.BestViewPct - 100*(1-Flatten(x).Major); math.Abs(d) > 1e-9 {
		t.Errorf("views of two lumens: %g", d)
	}
	if best := 100 * (1 - Flatten(0.5).Major); math.Abs(best+39.311) > 1e-2 {
		t.Errorf("x = 0.5: best view %g %%, want −39.31", best)
	}
}
