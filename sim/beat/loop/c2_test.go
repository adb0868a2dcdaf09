package loop

import (
	"math"
	"testing"
)

const c2Steps = 800

// openGradient is the mean of LA − LV pressure over the time of forward mitral flow, mmHg.
func openGradient(s *Solver) float64 {
	sum, n := 0.0, 0
	for i, q := range s.Q[FourLA] {
		if q > 0 {
			sum += s.P[FourLA][i] - s.P[FourLV][i]
			n++
		}
	}
	return sum / float64(n)
}

// physics.md C2, row "Volume conservation", 1e-6: in every beat, also far from the periodic state.
func TestFourConserves(t *testing.T) {
	s := New(Four(c2Steps, 400, 20))
	StartFour(s)
	for range 20 {
		s.Beat(false)
		for i := range c2Steps {
			sum := 0.0
			for c := range s.V {
				sum += s.V[c][i]
			}
			if math.Abs(sum-1327.40) > 1e-6 {
				t.Fatalf("total volume %.9f mL", sum)
			}
		}
		s.Advance()
	}
}

// physics.md C2, rows "Normal" and "LV state", tolerance 0.5 %.
func TestFourNormal(t *testing.T) {
	s := periodic(t, Four(c2Steps, 400, 0), StartFour)
	esv, edv, _ := span(s.V[FourLV])
	_, lvMax, _ := span(s.P[FourLV])
	lo, hi, mean := span(s.P[FourArtery])
	laLo, laHi, laMean := span(s.P[FourLA])
	laVLo, laVHi, _ := span(s.V[FourLA])
	_, _, pa := span(s.P[FourPulmonaryArtery])
	_, _, ra := span(s.P[FourRA])
	e, a := 0.0, 0.0
	for i, q := range s.Q[FourLA] {
		if i < c2Steps*92/100 {
			e = max(e, q)
		} else {
			a = max(a, q)
		}
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"EDV", edv, 141.71}, {"ESV", esv, 55.84}, {"SV", edv - esv, 85.86}, {"EF", (edv - esv) / edv, 0.606},
		{"CO", s.Forward[FourLV] * 60 / 1000, 5.152}, {"LVP max", lvMax, 129.5}, {"LVP at EDV", s.P[FourLV][0], 14.7},
		{"arterial max", hi, 129.2}, {"arterial min", lo, 88.7}, {"arterial mean", mean, 109.5},
		{"LAP mean", laMean, 12.82}, {"LAP min", laLo, 10.67}, {"LAP max", laHi, 15.62},
		{"LA volume min", laVLo, 58.2}, {"LA volume max", laVHi, 91.5}, {"PA mean", pa, 39.95}, {"RAP", ra, 11.19},
		{"mitral E", e, 863}, {"mitral A", a, 505}, {"E/A", e / a, 1.71},
	} {
		near(t, c.what, c.got, c.want, 0.005)
	}
	for i, want := range [][2]float64{{141.71, 14.67}, {59.91, 129.44}, {100.41, 10.54}, {121.79, 12.68}} {
		at := i * c2Steps / 4
		near(t, "LV volume", s.V[FourLV][at], want[0], 0.005)
		near(t, "LV pressure", s.P[FourLV][at], want[1], 0.005)
	}
}

// physics.md C2, row "MR", tolerance 1 %.
func TestFourLeak(t *testing.T) {
	for _, c := range []struct{ eroa, rvol, rf, edv, esv, forward, ef, lap, art float64 }{
		{0.1, 17.40, 0.174, 149.0, 49.2, 82.4, 0.670, 13.64, 105.2},
		{0.2, 33.59, 0.298, 155.6, 42.7, 79.3, 0.726, 14.39, 101.4},
		{0.3, 48.40, 0.388, 161.4, 36.5, 76.5, 0.774, 15.07, 97.9},
		{0.4, 61.69, 0.455, 166.7, 31.0, 74.0, 0.814, 15.68, 94.8},
		{0.6, 83.56, 0.546, 175.7, 22.5, 69.6, 0.872, 16.73, 89.4},
	} {
		s := periodic(t, Four(c2Steps, 400, 50*c.eroa), StartFour)
		esv, edv, _ := span(s.V[FourLV])
		_, _, lap := span(s.P[FourLA])
		_, _, art := span(s.P[FourArtery])
		near(t, "RVol", s.Backward[FourLA], c.rvol, 0.01)
		near(t, "RF", s.Backward[FourLA]/(edv-esv), c.rf, 0.01)
		near(t, "EDV", edv, c.edv, 0.01)
		near(t, "ESV", esv, c.esv, 0.01)
		near(t, "forward SV", s.Forward[FourLV], c.forward, 0.01)
		near(t, "EF", (edv-esv)/edv, c.ef, 0.01)
		near(t, "LAP", lap, c.lap, 0.01)
		near(t, "arterial mean", art, c.art, 0.01)
	}
}

// physics.md C2, row "Stenosis", tolerance 1 %.
func TestFourStenosis(t *testing.T) {
	for _, c := range []struct{ mva, gradient, lap, sv float64 }{
		{4, 1.12, 13.21, 84.6}, {2, 2.67, 13.85, 82.8}, {1.5, 3.96, 14.52, 80.7}, {1, 6.67, 16.34, 74.7},
	} {
		s := periodic(t, Four(c2Steps, 50*c.mva, 0), StartFour)
		esv, edv, _ := span(s.V[FourLV])
		_, _, lap := span(s.P[FourLA])
		near(t, "gradient", openGradient(s), c.gradient, 0.01)
		near(t, "LAP", lap, c.lap, 0.01)
		near(t, "SV", edv-esv, c.sv, 0.01)
	}
}

// physics.md C2, row "Both", tolerance 1 %.
func TestFourBoth(t *testing.T) {
	s := periodic(t, Four(c2Steps, 50*2, 50*0.1), StartFour)
	esv, edv, _ := span(s.V[FourLV])
	_, _, lap := span(s.P[FourLA])
	near(t, "RVol", s.Backward[FourLA], 16.69, 0.01)
	near(t, "RF", s.Backward[FourLA]/(edv-esv), 0.174, 0.01)
	near(t, "gradient", openGradient(s), 3.42, 0.01)
	near(t, "LAP", lap, 14.82, 0.01)
}
