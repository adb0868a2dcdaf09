package words

// lessonGerman holds the German of lessonEnglish.
var lessonGerman = map[string]string{
	"scene.lessons": "Lektionen",

	"lesson.section.question":    "Frage",
	"lesson.section.prediction":  "Ihre Vorhersage",
	"lesson.section.computation": "Was das Modell rechnet",
	"lesson.section.why":         "Warum",
	"lesson.section.evidence":    "Belege",
	"lesson.section.explore":     "Erkunden",
	"lesson.section.transfer":    "Ein anderer Fall",
	"lesson.section.answer":      "Die Antwort",
	"lesson.card":                "{finding}. {citation} ({source}). Untersuchte: {subjects}. Nachverfolgt: {followed}. Veröffentlicht {published}, Modell {model}, Abstand {gap}.",

	"lesson.word.met":           "erfüllt",
	"lesson.word.near":          "innerhalb 10 %",
	"lesson.word.outside":       "außerhalb",
	"lesson.word.low":           "gering",
	"lesson.word.possible":      "möglich",
	"lesson.word.likely":        "wahrscheinlich",
	"lesson.word.anchor":        "der Anker",
	"lesson.word.band":          "das Band",
	"lesson.word.mild":          "leicht",
	"lesson.word.moderate":      "mittel",
	"lesson.word.severe":        "schwer",
	"lesson.word.not_severe":    "nicht schwer",
	"lesson.word.none_or_trace": "keins oder Spur",
}
