package words

// cohortEnglish holds the words of the cohort scene and of imported geometry.
var cohortEnglish = map[string]string{
	"imported.mark":   "IMPORTED GEOMETRY",
	"imported.why":    "no grades, no selection rules.",
	"imported.title":  "Imported geometry",
	"imported.first":  "This curve is placed by the annulus. Drop the annulus first.",
	"imported.vein":   "The artery is placed by the coronary sinus. Drop the sinus as well.",
	"imported.opened": "Curves read in {unit}; curve and model differ by {gap} at most (root mean square). Everything else is that of: {name}.",
}
