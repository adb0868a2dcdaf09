package words

var stripGerman = map[string]string{
	"strip.clearance":       "Abstand der Arterie",
	"strip.most":            "höchstens {value}",
	"strip.least":           "mindestens {value}",
	"strip.ask":             "Frage",
	"strip.ask.shortening":  "Mehr Verkürzung",
	"strip.ask.losses":      "Verluste",
	"strip.ask.anchor":      "Ferner Anker",
	"strip.ask.weeks":       "Wochen",
	"strip.anchor":          "Was ein anderer Ort des fernen Ankers bewirken würde, bei gleichem Anteil der Verkürzung",
	"strip.anchor.axis":     "Station des fernen Ankers (mm)",
	"strip.weeks":           "Die Hälfte der Verkürzung kommt in {days}",
	"strip.weeks.none":      "Die ganze Verkürzung kommt sofort. Eine Halbwertszeit der Verkürzung verteilt sie auf Wochen.",
	"strip.weeks.axis":      "Tage seit dem Einsetzen",
	"label.marginal.branch": "Marginalast",
	"label.diagonal.branch": "Diagonalast",
	"attribution.none":      "Im Sinus zieht kein Implantat. Setzen Sie das Band ein und verkürzen Sie es.",
}
