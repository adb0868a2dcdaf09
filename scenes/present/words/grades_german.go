package words

import "strings"

// gradesGerman is the German of grading schemes, of their criteria and of why no grade is given.
var gradesGerman = map[string]string{
	"scheme.primary, American echocardiography 2017, four steps":   "primär, amerikanische Echokardiographie 2017, vier Stufen",
	"scheme.primary, American guideline 2020, severe or not":       "primär, amerikanische Leitlinie 2020, schwer oder nicht",
	"scheme.secondary, American of the 2014 era, severe or not":    "sekundär, amerikanisch um 2014, schwer oder nicht",
	"scheme.secondary, European 2021, severe or not (from memory)": "sekundär, europäisch 2021, schwer oder nicht (aus dem Gedächtnis)",
	"scheme.primary, European 2021, severe or not (from memory)":   "primär, europäisch 2021, schwer oder nicht (aus dem Gedächtnis)",

	"criterion.effective regurgitant orifice": "effektive Regurgitationsöffnung",
	"criterion.regurgitant volume":            "Regurgitationsvolumen",
	"criterion.regurgitant fraction":          "Regurgitationsanteil",
	"criterion.vena contracta":                "Vena contracta",
	"criterion.early filling speed":           "Geschwindigkeit der frühen Füllung",

	"gradenote.no grade: the orifice lies between two classes within the model's own uncertainty": "kein Grad: die Öffnung liegt innerhalb der Unsicherheit des Modells zwischen zwei Graden",
	"gradenote.no grade: nothing measured that the scheme grades":                                 "kein Grad: nichts gemessen, was das Schema einstuft",
	"gradenote.orifice below 0.02 cm² and volume below 3 mL (chosen limits)":                      "Öffnung unter 0,02 cm² und Volumen unter 3 ml (gewählte Grenzen)",
	"gradenote.criteria disagree": "Kriterien uneins; gezeigt ist der untere Median, unsere eigene Regel",
}

// GradeNote is why a grade is as it is, in the language.
func (w *Words) GradeNote(note string) string {
	if w.Lang == German && strings.HasPrefix(note, "criteria disagree") {
		return germanTables["gradenote.criteria disagree"]
	}
	return w.Table("gradenote."+note, note)
}

// Rule is the rule of a criterion in the language.
func (w *Words) Rule(rule string) string {
	if w.Lang != German {
		return w.maybeDouble(rule)
	}
	rule = strings.NewReplacer("at least", "mindestens", "at most", "höchstens", "central: within the middle third of the line (middle third chosen)",
		"mittig: im mittleren Drittel der Linie (Drittel gewählt)", "of the half line", "der halben Linie", "none", "keiner", "mild below", "leicht unter", "moderate", "mittel", "severe from", "schwer ab", "severe above", "schwer über", "below", "unter",
		"above", "über", "supports severe; not counted", "spricht für schwer; zählt nicht", "biplane", "zwei Ebenen", "elliptical orifice",
		"elliptische Öffnung", "low flow", "geringer Fluss", " and ", " und ").Replace(rule)
	return point().ReplaceAllString(rule, "$1,$2")
}
