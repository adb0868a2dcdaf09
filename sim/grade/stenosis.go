package grade

import (
	"math"

	"annuloscope/sim/units"
)

// StenosisInput is what narrowness of the opening is graded on. NaN where not measured.
type StenosisInput struct {
	Area             units.EffectiveCM2
	MeanGradientMMHg float64
	RatePerMin       float64 // heart rate; the gradient counts only from 60 to 80
	LungSystolicMMHg float64 // systolic pressure in the pulmonary artery
}

// StenosisGrade is an opening by the 2009 three steps (the first reads "none or mild") and the 2020 stage.
type StenosisGrade struct {
	Class      Class // Mild stands for none or mild; NotGiven when nothing was measured
	Criteria   []Criterion
	Discordant bool
	Stage2020  string // "very severe", "severe", "less than severe", or "not given"
	Note       string
}

const (
	sourceStenosis = "Baumgartner, J Am Soc Echocardiogr 2009;22:1 (seen second-hand; physics.md B2, S19)"
	// Source2020Stage is the source of StenosisGrade.Stage2020.
	Source2020Stage = "Otto, Circulation 2021;143:e72 (physics.md B2, S17): severe to 1.5 cm², very severe to 1.0 cm²"
)

// Stenosis grades an opening by its effective area, mean gradient and pulmonary pressure (physics.md B2).
func Stenosis(in StenosisInput) StenosisGrade {
	area := ladder{"effective opening", "cm²", "none or mild above 1.5, moderate 1.0–1.5, severe below 1.0", sourceStenosis,
		[]rung{{bottom, Severe}, {1.0, Moderate}, {math.Nextafter(1.5, 2), Mild}}, false}
	gradient := ladder{"mean gradient", "mmHg", "none or mild below 5, moderate 5–10, severe above 10; sinus rhythm, 60–80 per minute", sourceStenosis,
		[]rung{{bottom, Mild}, {5, Moderate}, {math.Nextafter(10, 11), Severe}}, false}
	lung := ladder{"pulmonary systolic pressure", "mmHg", "none or mild below 30, moderate 30–50, severe above 50", sourceStenosis,
		[]rung{{bottom, Mild}, {30, Moderate}, {math.Nextafter(50, 51), Severe}}, true}
	g := StenosisGrade{Stage2020: "not given"}
	measured := Exactly(in.MeanGradientMMHg)
	offRate := in.RatePerMin < 60 || in.RatePerMin > 80
	gradient.supporting = offRate
	g.Criteria = []Criterion{area.judge(Exactly(float64(in.Area))), gradient.judge(measured), lung.judge(Exactly(in.LungSystolicMMHg))}
	g.Class, g.Discordant = overall(g.Criteria)
	switch {
	case g.Class == NotGiven:
		g.Note = "no grade: nothing measured that counts"
	case g.Discordant:
		g.Note = "criteria disagree (" + said(g.Criteria) + "); shown is the lower median, our own rule"
	case offRate:
		g.Note = "the gradient is shown but not counted: the rate is outside 60–80 per minute"
	}
	switch {
	case math.IsNaN(float64(in.Area)):
	case in.Area <= 1.0:
		g.Stage2020 = "very severe"
	case in.Area <= 1.5:
		g.Stage2020 = "severe"
	default:
		g.Stage2020 = "less than severe"
	}
	return g
}
