package words

// lessonEnglish holds the words of the lessons' pages.
var lessonEnglish = map[string]string{
	"scene.lessons": "Lessons",

	"lesson.section.question":    "Question",
	"lesson.section.prediction":  "Your prediction",
	"lesson.section.computation": "What the model computes",
	"lesson.section.why":         "Why",
	"lesson.section.evidence":    "Evidence",
	"lesson.section.explore":     "Explore",
	"lesson.section.transfer":    "Another case",
	"lesson.section.answer":      "The answer",
	"lesson.card":                "{finding}. {citation} ({source}). Subjects: {subjects}. Followed: {followed}. Published {published}, model {model}, gap {gap}.",

	"lesson.word.met":           "met",
	"lesson.word.near":          "within 10 %",
	"lesson.word.outside":       "outside",
	"lesson.word.low":           "low",
	"lesson.word.possible":      "possible",
	"lesson.word.likely":        "likely",
	"lesson.word.anchor":        "the anchor",
	"lesson.word.band":          "the band",
	"lesson.word.mild":          "mild",
	"lesson.word.moderate":      "moderate",
	"lesson.word.severe":        "severe",
	"lesson.word.not_severe":    "not severe",
	"lesson.word.none_or_trace": "none or trace",
}
