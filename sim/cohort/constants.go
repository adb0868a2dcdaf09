package cohort

import "annuloscope/sim/anatomy"

// Group is one of the three kinds of patient.
type Group int

// The groups.
const (
	Normal Group = iota
	Functional
	Degenerative
	groups
)

// String returns the group in a word.
func (g Group) String() string { return [...]string{"normal", "functional", "degenerative"}[g] }

// Mechanism returns why the valve of the group leaks.
func (g Group) Mechanism() anatomy.Mechanism {
	return [...]anatomy.Mechanism{anatomy.NoLeak, anatomy.Functional, anatomy.Degenerative}[g]
}

// Marginal is the published distribution of one number, in the unit of its path.
type Marginal struct {
	Path     string
	Mean, SD [groups]float64 // by group; SD 0: not drawn in that group
	Log      bool            // log-normal with that mean and spread, for what cannot be negative
	Source   string          // rows of anatomy.md; "chosen" and "derived" say what no source gives
}

// Correlation of two numbers of the copula, by group.
type Correlation struct {
	A, B   string
	Rho    [groups]float64
	Source string
}

// Marginals lists every number that is drawn with a mean and a spread.
func Marginals() []Marginal {
	return []Marginal{
		{"body.surface_m2", [3]float64{1.8, 1.85, 1.85}, [3]float64{0.2, 0.2, 0.2}, false, "chosen"},
		{"annulus.septal_lateral_mm", [3]float64{28, 34, 37.6}, [3]float64{4, 5, 5}, false,
			"S01 mid-systole; degenerative derived from S10 (area index 7.3, commissural index 24.7 at 1.8 m²), its spread chosen"},
		{"annulus.commissural_mm", [3]float64{39, 43, 44.5}, [3]float64{5, 5, 5.8}, false,
			"S01 mid-systole; degenerative derived from S10 (24.7 ± 3.2 mm/m² at 1.8 m²)"},
		{"annulus.height_mm", [3]float64{6.9, 5.9, 6}, [3]float64{1.6, 2.2, 2}, false,
			"S01; spread derived from S03 (ratio ± 4.0 and ± 5.2 %); degenerative chosen (M02: ratio below 15 %)"},
		{"annulus.diastolic_scale", [3]float64{1.08, 1.03, 1.06}, [3]float64{0.03, 0.02, 0.03}, false, "chosen between S14 and S15, which disagree"},
		{"measured.depth_mm", [3]float64{0, 8.6, 5}, [3]float64{0, 2.2, 1}, false,
			"S21; spread 0.7 read as a standard error of 10 patients; degenerative: the normal mean, spread chosen"},
		{"measured.contact_mm", [3]float64{0, 1.2, 2.1}, [3]float64{0, 0.25, 0.25}, false,
			"S21: mean of both leaflets; spread derived from theirs; degenerative: the normal one, chosen"},
		{"measured.effective_orifice_cm2", [3]float64{0, 0.3, 0.4}, [3]float64{0, 0.12, 0.15}, true, "chosen; no source found"},
		{"measured.opening_area_cm2", [3]float64{6, 6, 6}, [3]float64{1.3, 1.3, 1.3}, false, "physics.md A3 (S2): 96 patients before clips; the normal group chosen alike"},
		{"jet.position", [3]float64{0, 0, 0}, [3]float64{0, 0.2, 0}, false, "chosen; no source found"},
		{"chord.ruptured_mm", [3]float64{0, 0, 10}, [3]float64{0, 0, 4}, true, "chosen; no source found"},
		{"chord.elongated_mm", [3]float64{0, 0, 2}, [3]float64{0, 0, 1}, true, "chosen; no source found"},
		{"chord.position", [3]float64{0, 0, 0}, [3]float64{0, 0, 0.25}, false, "chosen; the middle scallop is torn most often (common practice, no source)"},
		{"sinus.length_mm", [3]float64{108.9, 125.4, 125.4}, [3]float64{18, 17, 17}, false, "S53: without valve disease, and severe leak"},
		{"sinus.diameter.mouth_mm", [3]float64{9.9, 11, 11}, [3]float64{2.5, 2.8, 2.8}, false, "S53"},
		{"sinus.diameter.middle_mm", [3]float64{7.4, 8.2, 8.2}, [3]float64{2.3, 1.7, 1.7}, false, "S54"},
		{"sinus.diameter.distal_mm", [3]float64{5.6, 5.6, 5.6}, [3]float64{1.6, 1.6, 1.6}, false, "S60"},
		{"sinus.distance.mouth_mm", [3]float64{10.6, 10.6, 10.6}, [3]float64{2, 2, 2}, false, "derived from S30: 8 to 14 mm over 10 hearts, less the height"},
		{"sinus.distance.middle_mm", [3]float64{11.1, 11.1, 11.1}, [3]float64{3.6, 4.1, 4.1}, false, "derived from S63 (13 mm, less the height); spread S53"},
		{"sinus.distance.distal_mm", [3]float64{9.5, 9.5, 9.5}, [3]float64{2.3, 2.3, 2.3}, false, "derived from S30: 6.9 to 14 mm over 10 hearts, less the height"},
		{"sinus.elevation.mouth_mm", [3]float64{3, 3, 3}, [3]float64{2.5, 2.5, 2.5}, false, "chosen"},
		{"sinus.elevation.middle_mm", [3]float64{6.7, 6.7, 6.7}, [3]float64{4, 4, 4}, false, "derived from S68: below 7.8 mm in 61 %, spread chosen"},
		{"sinus.elevation.distal_mm", [3]float64{4.5, 4.5, 4.5}, [3]float64{2.5, 2.5, 2.5}, false, "chosen"},
		{"artery.crossing_mm", [3]float64{86.5, 86.5, 86.5}, [3]float64{21, 21, 21}, false, "S67"},
		{"artery.separation_mm", [3]float64{2.03, 2.03, 2.03}, [3]float64{1.6, 1.6, 1.6}, true,
			"derived: below 1 mm in 24.7 % (S72, directly beneath), below 5 mm in 95 % (S63, within 5 mm; share chosen)"},
		{"heart.end_diastolic_ml", [3]float64{120, 230, 175}, [3]float64{20, 40, 30}, false, "chosen beside physics.md C3 (from memory)"},
		{"heart.ejection_share", [3]float64{0.6, 0.4, 0.64}, [3]float64{0.04, 0.06, 0.05}, false, "chosen; no parameter of its own, sets heart.end_systolic_ml"},
		{"heart.rate_per_min", [3]float64{70, 76, 74}, [3]float64{10, 11, 11}, false, "chosen"},
		{"heart.atrial_mean_mmhg", [3]float64{9, 17, 16}, [3]float64{2, 4, 4}, false, "chosen beside physics.md C3 (from memory)"},
	}
}

// Correlations lists the pairs that are not independent.
func Correlations() []Correlation {
	all := func(r float64) [groups]float64 { return [groups]float64{r, r, r} }
	return []Correlation{
		{"annulus.septal_lateral_mm", "annulus.commissural_mm", [groups]float64{0.80, 0.73, 0.73},
			"derived from S01: spreads of both diameters and of their ratio (0.06 and 0.08); degenerative as functional"},
		{"annulus.septal_lateral_mm", "body.surface_m2", [groups]float64{0.74, 0.3, 0.3}, "derived from S04 (area against body surface r = 0.78); patients chosen"},
		{"annulus.commissural_mm", "body.surface_m2", [groups]float64{0.74, 0.3, 0.3}, "derived from S04 (area against body surface r = 0.78); patients chosen"},
		{"measured.depth_mm", "measured.effective_orifice_cm2", [groups]float64{0, 0.5, 0}, "chosen below S29 (tenting volume against orifice r = 0.86)"},
		{"measured.contact_mm", "measured.effective_orifice_cm2", [groups]float64{0, -0.4, 0}, "chosen"},
		{"measured.opening_area_cm2", "annulus.commissural_mm", all(0.6), "chosen; a wider annulus holds a wider opening"},
		{"measured.opening_area_cm2", "annulus.septal_lateral_mm", [groups]float64{0.48, 0.44, 0.44}, "derived: only by way of the commissural diameter"},
		{"measured.opening_area_cm2", "body.surface_m2", [groups]float64{0.44, 0.18, 0.18}, "derived: only by way of the commissural diameter"},
		{"sinus.distance.mouth_mm", "sinus.distance.middle_mm", all(0.5), "chosen"},
		{"sinus.distance.middle_mm", "sinus.distance.distal_mm", all(0.5), "chosen"},
		{"sinus.elevation.mouth_mm", "sinus.elevation.middle_mm", all(0.5), "chosen"},
		{"sinus.elevation.middle_mm", "sinus.elevation.distal_mm", all(0.5), "chosen"},
		{"sinus.diameter.mouth_mm", "sinus.diameter.middle_mm", all(0.5), "chosen"},
		{"sinus.diameter.middle_mm", "sinus.diameter.distal_mm", all(0.5), "chosen"},
	}
}

// Frequency is how often a variant occurs.
type Frequency struct {
	Name   string
	Share  float64
	Source string
}

// The variants, in the order in which they are drawn.
const (
	archedCourse = iota
	arteryDeep
	marginalCrossed
	diagonalCrossed
	leftDominant
	balancedDominant
)

// Frequencies lists the variants of sinus and circumflex artery.
func Frequencies() []Frequency {
	return []Frequency{
		archedCourse:     {"middle course of the vein arched onto the atrium", 37.0 / 40, "S60, S66"},
		arteryDeep:       {"circumflex between vein and annulus", 0.80, "S67; others 45 to 97 % (S30, S69, S71, S72)"},
		marginalCrossed:  {"vein crosses a marginal branch", 17.0 / 40, "S66"},
		diagonalCrossed:  {"vein crosses a diagonal branch", 0.16, "M11, M12 (from memory)"},
		leftDominant:     {"left-dominant circulation", 0.125, "S80; S79 counts 9 %"},
		balancedDominant: {"balanced circulation", 0.175, "S80; S79 does not count it"},
	}
}

// arteryDiameter is the lumen by dominance, mm: mean and spread. S76 right and left; balanced S78, its spread chosen.
var arteryDiameter = map[anatomy.Dominance][2]float64{
	anatomy.RightDominant: {3.4, 0.5}, anatomy.LeftDominant: {4.2, 0.6}, anatomy.BalancedDominant: {3.8, 0.5},
}

const (
	coverShare   = 88.0 / 109  // of the vein's length lies on the atrium; S30: 80 % of the posterior annulus
	deepEndShare = 104.0 / 109 // of the vein's length, end of the stretch with the artery near; S63: 53 to 104 mm
	deepEndMost  = 150.0       // mm, end of the range of artery.deep_to_mm
	marginalFrom = 45.0        // mm, station of a crossed marginal branch; chosen
	marginalTo   = 95.0        // mm
	diagonalAt   = 0.93        // of the vein's length, station of a crossed diagonal branch; chosen
	marginPerMM  = 108.0 / 39  // mm of leaflet margin per mm of commissural diameter: the invented normal adult's; chosen
	lvesdNormal  = 32.0 / 3.63 // mm per cube root of the end-systolic volume in mL: the invented normal adult's; chosen
	maxAttempts  = 500         // draws for one patient; a table that needs more is wrong
	sampleLimit  = 10000       // patients kept for ranks and quantiles, so that memory stays flat
)
