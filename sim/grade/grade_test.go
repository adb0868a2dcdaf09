package grade_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"annuloscope/sim/grade"
	"annuloscope/sim/units"
)

func leak(orifice units.EffectiveCM2, volume, fraction float64) grade.LeakInput {
	return grade.LeakInput{Orifice: grade.ExactOrifice(orifice), VolumeML: grade.Exactly(volume), FractionPct: grade.Exactly(fraction),
		VenaContractaCM: grade.NotMeasured(), EarlySpeedMPS: grade.NotMeasured()}
}

// physics.md B3, first five rows: every step from both sides of each boundary.
func TestFourSteps(t *testing.T) {
	names := []string{"effective regurgitant orifice", "regurgitant volume", "regurgitant fraction"}
	limits := [][3]float64{{0.20, 0.30, 0.40}, {30, 45, 60}, {30, 40, 50}}
	below := []grade.Class{grade.Mild, grade.ModerateLower, grade.ModerateUpper}
	from := []grade.Class{grade.ModerateLower, grade.ModerateUpper, grade.Severe}
	for i, row := range limits {
		for k, limit := range row {
			for _, side := range []struct {
				v    float64
				want grade.Class
			}{{math.Nextafter(limit, 0), below[k]}, {limit, from[k]}} {
				in := leak(units.EffectiveCM2(math.NaN()), math.NaN(), math.NaN())
				switch i {
				case 0:
					in.Orifice = grade.ExactOrifice(units.EffectiveCM2(side.v))
				case 1:
					in.VolumeML = grade.Exactly(side.v)
				case 2:
					in.FractionPct = grade.Exactly(side.v)
				}
				g := grade.Leak(grade.PrimaryFourStep, in)
				if g.Criteria[i].Name != names[i] || g.Criteria[i].Class != side.want || g.Class != side.want {
					t.Errorf("%s %v: %v, overall %v, want %v", names[i], side.v, g.Criteria[i].Class, g.Class, side.want)
				}
			}
		}
	}
	in := leak(0.35, 50, 45)
	in.VenaContractaCM, in.EarlySpeedMPS = grade.Exactly(0.5), grade.Exactly(1.3)
	g := grade.Leak(grade.PrimaryFourStep, in)
	if g.Class != grade.ModerateUpper || g.Discordant || g.Criteria[3].Class != grade.Moderate {
		t.Errorf("concordant moderate: %+v", g)
	}
	if e := g.Criteria[4]; e.Class != grade.Severe || e.Counted {
		t.Errorf("early speed supports but does not count: %+v", e)
	}
	in.VenaContractaCM = grade.Exactly(0.75)
	in.Biplane = true
	if c := grade.Leak(grade.PrimaryFourStep, in).Criteria[3]; c.Class != grade.Moderate {
		t.Errorf("0.75 cm biplane is %v", c.Class)
	}
}

// Primary and secondary schemes apart: 0.25 cm², 35 mL, 42 % is moderate as primary, severe by the 2014-era secondary
// orifice and volume but not by the fraction (discordant), not severe in Europe (physics.md B3).
func TestSchemesDiffer(t *testing.T) {
	in := leak(0.25, 35, 42)
	if g := grade.Leak(grade.PrimaryFourStep, in); g.Class != grade.ModerateLower || !g.Discordant {
		t.Errorf("four steps: %v discordant %v", g.Class, g.Discordant)
	}
	if g := grade.Leak(grade.PrimarySevere, in); g.Class != grade.NotSevere || g.Discordant {
		t.Errorf("2020: %v", g.Class)
	}
	g := grade.Leak(grade.SecondaryAmerican, in)
	if g.Class != grade.Severe || !g.Discordant || !strings.Contains(g.Note, "regurgitant fraction not severe") {
		t.Errorf("2014: %+v", g)
	}
	if g := grade.Leak(grade.SecondaryEuropean, in); g.Class != grade.NotSevere || g.Discordant {
		t.Errorf("Europe: %v", g.Class)
	}
	slit := leak(0.32, 47, 40)
	slit.Elliptical, slit.LowFlow = true, true
	if g := grade.Leak(grade.SecondaryEuropean, slit); g.Class != grade.Severe || g.Discordant {
		t.Errorf("slit at low flow: %+v", g)
	}
	for _, c := range grade.Leak(grade.SecondaryEuropean, in).Criteria {
		if !strings.Contains(c.Source, "from memory") {
			t.Errorf("%s: source %q does not say from memory", c.Name, c.Source)
		}
	}
}

// No grade when the orifice interval spans classes; a volume that spans is only left out.
func TestIntervalSpansClasses(t *testing.T) {
	in := leak(0.38, 62, 52)
	in.Orifice.Low, in.Orifice.High = 0.33, 0.43
	g := grade.Leak(grade.PrimaryFourStep, in)
	if g.Class != grade.NotGiven || !g.Criteria[0].Spans || g.Note == "" {
		t.Errorf("spanning orifice: %+v", g)
	}
	in = leak(0.45, 58, 52)
	in.VolumeML.Low, in.VolumeML.High = 55, 63
	g = grade.Leak(grade.PrimaryFourStep, in)
	if g.Class != grade.Severe || g.Criteria[1].Counted || g.Discordant {
		t.Errorf("spanning volume: %+v", g)
	}
}

func TestNoLeakAndNothingMeasured(t *testing.T) {
	if g := grade.Leak(grade.PrimaryFourStep, leak(0, 0, 0)); g.Class != grade.None {
		t.Errorf("no leak: %v", g.Class)
	}
	if g := grade.Leak(grade.PrimaryFourStep, leak(0.05, 8, 9)); g.Class != grade.Mild {
		t.Errorf("small leak: %v", g.Class)
	}
	nan := math.NaN()
	if g := grade.Leak(grade.PrimaryFourStep, leak(units.EffectiveCM2(nan), nan, nan)); g.Class != grade.NotGiven || g.Note == "" {
		t.Errorf("nothing measured: %+v", g)
	}
}

// physics.md B2.
func TestStenosis(t *testing.T) {
	for _, c := range []struct {
		area, gradient float64
		want           grade.Class
		stage          string
	}{{2.4, 3, grade.Mild, "less than severe"}, {1.5, 7, grade.Moderate, "severe"}, {1.0, 10, grade.Moderate, "very severe"}, {0.9, 12, grade.Severe, "very severe"}} {
		g := grade.Stenosis(grade.StenosisInput{Area: units.EffectiveCM2(c.area), MeanGradientMMHg: c.gradient, RatePerMin: 70, LungSystolicMMHg: math.NaN()})
		if g.Class != c.want || g.Discordant || g.Stage2020 != c.stage {
			t.Errorf("%+v: %v, %s, discordant %v", c, g.Class, g.Stage2020, g.Discordant)
		}
	}
	fast := grade.Stenosis(grade.StenosisInput{Area: 2.0, MeanGradientMMHg: 8, RatePerMin: 110, LungSystolicMMHg: 25})
	if fast.Class != grade.Mild || fast.Criteria[1].Counted || fast.Criteria[1].Class != grade.Moderate || fast.Note == "" {
		t.Errorf("fast heart: %+v", fast)
	}
	odd := grade.Stenosis(grade.StenosisInput{Area: 2.0, MeanGradientMMHg: 8, RatePerMin: 70, LungSystolicMMHg: 25})
	if !odd.Discordant {
		t.Errorf("area 2.0 with 8 mmHg at 70/min is discordant: %+v", odd)
	}
}

// Issue 4's list, gated by mechanism.
func TestSelection(t *testing.T) {
	in := grade.SelectionInput{Mechanism: grade.Functional, Opening: 3.7, ContactMM: 2, DepthMM: 11, FlailGapMM: 12, FlailWidthMM: 14,
		JetPosition: 0.1, CalcifiedGripMM: 0, SystolicDiameterMM: 61, EjectionPct: 25}
	states := func(in grade.SelectionInput) map[string]grade.State {
		m := map[string]grade.State{}
		for _, f := range grade.Selection(in) {
			m[f.Name] = f.State
			if f.Source == "" || f.Rule == "" {
				t.Errorf("%s without rule or source", f.Name)
			}
		}
		return m
	}
	want := map[string]grade.State{"opening by planimetry": grade.Within10, "contact length": grade.Met, "contact depth": grade.Within10,
		"flail gap": grade.NotApplicable, "flail width": grade.NotApplicable,
		"origin of the leak, distance from the middle of the line": grade.Met, "calcified length where the clip holds": grade.Met,
		"end-systolic diameter": grade.Outside, "ejection fraction": grade.Within10}
	for name, got := range states(in) {
		if got != want[name] {
			t.Errorf("functional, %s: %v, want %v", name, got, want[name])
		}
	}
	in.Mechanism, in.JetPosition, in.CalcifiedGripMM, in.EjectionPct = grade.Degenerative, -0.8, 2, math.NaN()
	got := states(in)
	for name, state := range map[string]grade.State{"contact length": grade.NotApplicable, "flail gap": grade.Outside, "flail width": grade.Met,
		"origin of the leak, distance from the middle of the line": grade.Outside, "calcified length where the clip holds": grade.Outside,
		"ejection fraction": grade.NotKnown} {
		if got[name] != state {
			t.Errorf("degenerative, %s: %v, want %v", name, got[name], state)
		}
	}
	in.FlailGapMM, in.FlailWidthMM = 0, 0
	if s := states(in)["flail gap"]; s != grade.NotApplicable {
		t.Errorf("no flail: %v", s)
	}
}

// physics.md A3: success effective orifice ≥1.5 cm² and gradient <5 mmHg; echo warning from 4.4.
func TestAfterRepair(t *testing.T) {
	f := grade.AfterRepair(grade.AfterRepairInput{Area: 1.5, MeanGradientMMHg: 4.7})
	if f[0].State != grade.Met || f[1].State != grade.Met || f[2].State != grade.Within10 {
		t.Errorf("%+v", f)
	}
	f = grade.AfterRepair(grade.AfterRepairInput{Area: 1.3, MeanGradientMMHg: 5.6})
	if f[0].State != grade.Outside || f[1].State != grade.Outside {
		t.Errorf("%+v", f)
	}
}

// Grades read effective areas, planimetry rules anatomic ones: the field types say so.
func TestAreaTypes(t *testing.T) {
	effective, anatomic := reflect.TypeFor[units.EffectiveCM2](), reflect.TypeFor[units.AnatomicCM2]()
	for _, c := range []struct {
		in    any
		field string
		want  reflect.Type
	}{{grade.Orifice{}, "Value", effective}, {grade.StenosisInput{}, "Area", effective}, {grade.AfterRepairInput{}, "Area", effective},
		{grade.SelectionInput{}, "Opening", anatomic}} {
		f, ok := reflect.TypeOf(c.in).FieldByName(c.field)
		if !ok || f.Type != c.want {
			t.Errorf("%T.%s is %v, want %v", c.in, c.field, f.Type, c.want)
		}
	}
}

func ExampleLeak() {
	g := grade.Leak(grade.SecondaryAmerican, leak(0.22, 28, 45))
	fmt.Println(g.Class, g.Discordant)
	fmt.Println(g.Note)
	// Output:
	// not severe true
	// criteria disagree (effective regurgitant orifice severe, regurgitant volume not severe, regurgitant fraction not severe); shown is the lower median, our own rule
}
