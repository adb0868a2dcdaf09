package grade

import "math"

// Scheme is one published way to grade a leak. Primary and secondary disease have their own.
type Scheme int

// The schemes.
const (
	PrimaryFourStep   Scheme = iota // American echocardiography 2017, four steps
	PrimarySevere                   // American guideline 2020, severe or not
	SecondaryAmerican               // 2014-era American, severe or not
	SecondaryEuropean               // European 2021, severe or not; from memory
	PrimaryEuropean                 // European 2021, severe or not; from memory
)

var schemeNames = [...]string{
	"primary, American echocardiography 2017, four steps",
	"primary, American guideline 2020, severe or not",
	"secondary, American of the 2014 era, severe or not",
	"secondary, European 2021, severe or not (from memory)",
	"primary, European 2021, severe or not (from memory)",
}

// String names the scheme with year and steps.
func (s Scheme) String() string { return schemeNames[s] }

const (
	sourceFourStep = "Zoghbi, J Am Soc Echocardiogr 2017;30:303 (table seen; physics.md B3, S18)"
	source2020     = "Otto, Circulation 2021;143:e72 (seen second-hand; physics.md B3, S17)"
	source2014     = "American guideline of the 2014 era (secondary source; physics.md B3, S25b)"
	sourceEuropean = "Vahanian, Eur Heart J 2022;43:561, from memory (physics.md B3, S28)"
	sourceEuroPrim = "Vahanian, Eur Heart J 2022;43:561, from memory (not in physics.md)"
)

var bottom = math.Inf(-1)

// fourSteps builds the rungs mild, two moderate steps, severe.
func fourSteps(lower, upper, severe float64) []rung {
	return []rung{{bottom, Mild}, {lower, ModerateLower}, {upper, ModerateUpper}, {severe, Severe}}
}

func twoSteps(severe float64) []rung { return []rung{{bottom, NotSevere}, {severe, Severe}} }

// ladders returns the scheme's criteria: orifice, volume, fraction, vena contracta, early speed. A ladder without
// rungs is not part of the scheme.
func (s Scheme) ladders(in LeakInput) [5]ladder {
	switch s {
	case PrimaryFourStep:
		contracta := ladder{"vena contracta", "cm", "mild below 0.3, severe from 0.7", sourceFourStep,
			[]rung{{bottom, Mild}, {0.3, Moderate}, {0.7, Severe}}, false}
		if in.Biplane {
			contracta.rule, contracta.rungs[2].from = "mild below 0.3, severe above 0.8 (biplane)", math.Nextafter(0.8, 1)
		}
		return [5]ladder{
			{"effective regurgitant orifice", "cm²", "mild below 0.20, moderate 0.20–0.29 and 0.30–0.39, severe from 0.40", sourceFourStep, fourSteps(0.20, 0.30, 0.40), false},
			{"regurgitant volume", "mL", "mild below 30, moderate 30–44 and 45–59, severe from 60", sourceFourStep, fourSteps(30, 45, 60), false},
			{"regurgitant fraction", "%", "mild below 30, moderate 30–39 and 40–49, severe from 50", sourceFourStep, fourSteps(30, 40, 50), false},
			contracta,
			{"early filling speed", "m/s", "above 1.2 supports severe; not counted", sourceFourStep, []rung{{math.Nextafter(1.2, 2), Severe}}, true},
		}
	case PrimarySevere:
		return [5]ladder{
			{"effective regurgitant orifice", "cm²", "severe from 0.40", source2020, twoSteps(0.40), false},
			{"regurgitant volume", "mL", "severe from 60", source2020, twoSteps(60), false},
			{"regurgitant fraction", "%", "severe from 50", source2020, twoSteps(50), false},
			{"vena contracta", "cm", "severe from 0.7", source2020, twoSteps(0.7), false},
		}
	case SecondaryAmerican:
		return [5]ladder{
			{"effective regurgitant orifice", "cm²", "severe from 0.20", source2014, twoSteps(0.20), false},
			{"regurgitant volume", "mL", "severe from 30", source2014, twoSteps(30), false},
			{"regurgitant fraction", "%", "severe from 50", source2014, twoSteps(50), false},
		}
	case PrimaryEuropean:
		contracta := ladder{"vena contracta", "cm", "severe from 0.7", sourceEuroPrim, twoSteps(0.7), false}
		if in.Biplane {
			contracta.rule, contracta.rungs = "severe from 0.8 (biplane)", twoSteps(0.8)
		}
		return [5]ladder{
			{"effective regurgitant orifice", "cm²", "severe from 0.40", sourceEuroPrim, twoSteps(0.40), false},
			{"regurgitant volume", "mL", "severe from 60", sourceEuroPrim, twoSteps(60), false},
			{"regurgitant fraction", "%", "severe from 50", sourceEuroPrim, twoSteps(50), false},
			contracta,
		}
	case SecondaryEuropean:
		orifice, volume, contracta := 0.40, 60.0, 0.7
		rules := [3]string{"severe from 0.40", "severe from 60", "severe from 0.7"}
		if in.Elliptical {
			orifice, rules[0] = 0.30, "severe from 0.30 (elliptical orifice)"
		}
		if in.LowFlow {
			volume, rules[1] = 45, "severe from 45 (low flow)"
		}
		if in.Biplane {
			contracta, rules[2] = 0.8, "severe from 0.8 (biplane)"
		}
		return [5]ladder{
			{"effective regurgitant orifice", "cm²", rules[0], sourceEuropean, twoSteps(orifice), false},
			{"regurgitant volume", "mL", rules[1], sourceEuropean, twoSteps(volume), false},
			{},
			{"vena contracta", "cm", rules[2], sourceEuropean, twoSteps(contracta), false},
		}
	}
	panic("grade: unknown scheme")
}
