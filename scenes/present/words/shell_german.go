package words

// shellGerman is shellEnglish in German.
var shellGerman = map[string]string{
	"shell.heading":        "Segel",
	"shell.engine":         "Was die Segel in Ruhe schließt und öffnet",
	"shell.sections":       "Schnitte",
	"shell.shell":          "Räumlich",
	"shell.field":          "Was die Segel färbt",
	"shell.field.none":     "Eigene Farben",
	"shell.field.contact":  "Anpressdruck",
	"shell.field.gap":      "Abstand",
	"shell.field.tension":  "Spannung",
	"shell.legend":         "{field} ({unit})",
	"shell.settling":       "Die räumlichen Segel kommen zur Ruhe; bis dahin gelten die Zahlen der Schnitte.",
	"shell.settling.short": "Segel kommen zur Ruhe …",
	"shell.failed":         "Die räumlichen Segel kamen nicht zur Ruhe. Es gelten die Zahlen der Schnitte.",
	"shell.differences":    "Nach der Behandlung, Schnitte und räumlich:",
	"shell.difference":     "{name}: {sections} und {shell}",
	"shell.slot":           "Spalt zwischen den Segeln {slot}; vom Vorhof aus gesehen {seen}, was einen abgerissenen Rand unterschätzt. Was das gemessene Leck über den gezeichneten Spalt hinaus braucht, wird als Rest mitgeführt und nicht gezeichnet.",
	"cohort.sections":      "Die Patienten sind mit den Segeln als Schnitten gerechnet; räumlich bräuchte jeder Sekunden.",
	"lesson.sections":      "Zahlen und Bilder einer Lektion sind die der Segel als Schnitte, an denen ihr Text geprüft wurde.",
	"cut.shell":            "gepunktet: räumlich",
}
