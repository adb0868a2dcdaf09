package words

// beatEnglish is the scene of the beat.
var beatEnglish = map[string]string{
	"beat.tab.move":       "Beat",
	"beat.tab.waves":      "Waves",
	"beat.tab.loop":       "Loop",
	"beat.tab.laboratory": "Laboratory",
	"beat.tab.rules":      "Grades",
	"beat.tab.heart":      "Heart",

	"knob.anatomy/heart.rate_change_per_min": "Change of heart rate",
	"knob.anatomy/heart.exercise":            "Effort (0 rest, 1 brisk)",
	"knob.anatomy/heart.adaptation":          "Grown with the leak (0 not, 1 years)",

	"beat.pause": "Pause",
	"beat.go":    "Go on",

	"beat.orifice":      "Leak: effective orifice (cm²)",
	"beat.orifice.line": "Leak: mid-systole {mid} (graded, dot), mean {mean}, peak {peak}.",

	"lab.of.opening":      "Opening",
	"lab.of.leak orifice": "Leaking orifice",
	"lab.of.leak volume":  "Leak volume",

	"lab.title": "As a laboratory would read it",
	"lab.intro": "The usual formulas, applied to these waves and to the real shape of the leak. What is true in the model stands beside each.",
	"lab.reads": "reads {value}, true {true}: {error} %",
	"lab.tight": "The leak is too small to be measured.",
	"lab.slit":  "Leak in mid-systole: {length} by {width}. The blood passes {alias} at {radius} before it.",

	"rules.grades":         "Grade of the leak",
	"rules.disagree":       "One scheme calls this leak severe, another does not.",
	"rules.opening":        "Opening",
	"rules.after":          "After clip or stitch: published flags",
	"rules.selection":      "Historical selection rules, often exceeded in practice",
	"rules.selection.note": "The valve before treatment, each value against its rule. No verdict on a person.",
	"rules.later":          "What the repairs close off later",

	"heart.intro": "What the heart does since it was measured. The valve is the same.",

	"tip.inputs.bond": "the gap a clip or stitch holds shut, its stiffness, and the annulus",
	"tip.later":       "Later",
}
