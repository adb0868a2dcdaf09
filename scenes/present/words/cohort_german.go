package words

// cohortGerman holds the words of the cohort scene and of imported geometry.
var cohortGerman = map[string]string{
	"imported.mark": "EINGELESENE GEOMETRIE",
	"imported.why":  "keine Schweregrade, keine Auswahlregeln.",
}
