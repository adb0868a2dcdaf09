package units_test

import (
	"math"
	"testing"

	"annuloscope/sim/units"
)

// Pressure goes both ways; 100 mmHg is 13.3322 kPa (definition of the torr to five digits).
func TestPressureBothWays(t *testing.T) {
	if got := units.PressureFromMMHg(100); math.Abs(got-0.0133322) > 1e-9 {
		t.Errorf("100 mmHg = %v N/mm², want 0.0133322", got)
	}
	for _, p := range []float64{0, 1, 80, 240} {
		if back := units.PressureToMMHg(units.PressureFromMMHg(p)); math.Abs(back-p) > 1e-9 {
			t.Errorf("%v mmHg comes back as %v", p, back)
		}
	}
}

// The jet constant follows from the density (physics.md B: v = 50.155·√Δp cm/s at 1060 kg/m³).
func TestJetSpeed(t *testing.T) {
	want := math.Sqrt(2*133.322/units.BloodDensity) * 100
	if math.Abs(units.JetSpeedPerRootMMHg-want) > 1e-3 {
		t.Errorf("jet constant %v, want %v", units.JetSpeedPerRootMMHg, want)
	}
}

func TestAreasBothWays(t *testing.T) {
	a := units.AnatomicCM2(6)
	if e := a.Effective(0.8); math.Abs(float64(e)-4.8) > 1e-12 || math.Abs(float64(e.Anatomic(0.8))-6) > 1e-12 {
		t.Errorf("6 cm² anatomic → %v effective", e)
	}
	if units.AreaToCM2(units.AreaFromCM2(3.3)) != 3.3 || units.VolumeToML(1500) != 1.5 {
		t.Error("area or volume conversion")
	}
}
