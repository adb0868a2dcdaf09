package words

// shellEnglish is what is said about the leaflets in three dimensions.
var shellEnglish = map[string]string{
	"shell.heading":        "Leaflets",
	"shell.engine":         "What closes and opens the leaflets at rest",
	"shell.sections":       "Sections",
	"shell.shell":          "Three dimensions",
	"shell.field":          "What colours the leaflets",
	"shell.field.none":     "Own colours",
	"shell.field.contact":  "Contact pressure",
	"shell.field.gap":      "Distance",
	"shell.field.tension":  "Tension",
	"shell.legend":         "{field} ({unit})",
	"shell.settling":       "The three-dimensional leaflets are settling; until then the numbers are those of the sections.",
	"shell.settling.short": "leaflets settling …",
	"shell.failed":         "The three-dimensional leaflets did not settle. The numbers are those of the sections.",
	"shell.differences":    "After treatment, sections and three dimensions:",
	"shell.difference":     "{name}: {sections} and {shell}",
	"shell.slot":           "Slot between the leaflets {slot}; seen from the atrium {seen}, which under-reads a torn edge. What the measured leak needs beyond the drawn slot is carried along as a remainder and not drawn.",
	"cohort.sections":      "The patients are computed with the leaflets as sections; in three dimensions each would take seconds.",
	"lesson.sections":      "A lesson's numbers and pictures are those of the leaflets as sections, with which its text was checked.",
	"cut.shell":            "dotted: three dimensions",
}
