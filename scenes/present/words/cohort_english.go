package words

// cohortEnglish holds the words of the cohort scene and of imported geometry.
var cohortEnglish = map[string]string{
	"imported.mark": "IMPORTED GEOMETRY",
	"imported.why":  "no grades, no selection rules.",
}
