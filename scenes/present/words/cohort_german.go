package words

// cohortGerman holds the words of the cohort scene and of imported geometry.
var cohortGerman = map[string]string{
	"imported.mark":   "EINGELESENE GEOMETRIE",
	"imported.why":    "keine Schweregrade, keine Auswahlregeln.",
	"imported.title":  "Eingelesene Geometrie",
	"imported.first":  "Diese Kurve wird nach dem Anulus gelegt. Bitte zuerst den Anulus hereinziehen.",
	"imported.vein":   "Die Arterie wird nach dem Koronarsinus gelegt. Bitte auch den Sinus hereinziehen.",
	"imported.opened": "Kurven in {unit} gelesen; Kurve und Modell weichen höchstens um {gap} ab (quadratisches Mittel). Alles Übrige stammt von: {name}.",
}
