package words

// checksGerman is the German of the checks on which the model disagrees with its source: check.QUANTITY, checkkind.KIND.
var checksGerman = map[string]string{
	"check.share kept by one clip of 5.0 cm² in 39 mm (rule of thumb 5 to 3.5 cm²)": "Anteil, den ein Clip von 5,0 cm² bei 39 mm lässt (Faustregel 5 auf 3,5 cm²)",
	"check.filling time":                                                "Füllungszeit",
	"check.pure leak with a large v wave, v":                            "reines Leck mit großer v-Welle, v",
	"check.tenting volume in mid-systole, functional leak":              "Zeltvolumen in der mittleren Systole, funktionelles Leck",
	"check.sutures 0.12 N in all: downsizing (used in the fit)":         "Nähte mit zusammen 0,12 N: Verkleinerung (zur Anpassung benutzt)",
	"check.suture to P3 at 32 % downsizing":                             "Naht zu P3 bei 32 % Verkleinerung",
	"check.all three sutures at 32 % of their own length":               "alle drei Nähte bei 32 % ihrer eigenen Länge",
	"check.dilatation: commissural gain when septal-lateral gains 25 %": "Erweiterung: Zunahme der Kommissurenweite, wenn die septolaterale um 25 % zunimmt",
	"check.force on a rigid transducer, septal-lateral, 90 mmHg":        "Kraft auf einen starren Aufnehmer, septolateral, 90 mmHg",
	"check.posterior leaflet length of the normal valve":                "Länge des hinteren Segels der gesunden Klappe",
	"check.tenting area of the normal valve":                            "Zeltfläche der gesunden Klappe",
	"check.one central clip, fall of the anatomic leak orifice":         "ein mittiger Clip, Abnahme der anatomischen Lecköffnung",
	"check.mean gradient after one central clip":                        "mittlerer Gradient nach einem mittigen Clip",
	"check.leak area left after clip repair, share":                     "nach Clips verbliebene Leckfläche, Anteil",

	"checkkind.exact":           "exakt",
	"checkkind.published":       "veröffentlicht",
	"checkkind.secondary":       "aus zweiter Hand",
	"checkkind.common practice": "üblicher Gebrauch",
	"checkkind.from memory":     "aus dem Gedächtnis",
	"checkkind.grid study":      "Gitterstudie",
	"check.change of mean contact, shell, band shortened by 10 mm":                 "Änderung des mittleren Kontakts, räumlich, Band um 10 mm verkürzt",
	"check.change of depth, shell, band shortened by 10 mm":                        "Änderung der Tiefe, räumlich, Band um 10 mm verkürzt",
	"check.change of the leak's effective orifice, shell, band shortened by 10 mm": "Änderung der effektiven Lecköffnung, räumlich, Band um 10 mm verkürzt",
	"check.change of mean contact, shell, band shortened by 20 mm":                 "Änderung des mittleren Kontakts, räumlich, Band um 20 mm verkürzt",
	"check.change of depth, shell, band shortened by 20 mm":                        "Änderung der Tiefe, räumlich, Band um 20 mm verkürzt",
	"check.change of the leak's effective orifice, shell, band shortened by 20 mm": "Änderung der effektiven Lecköffnung, räumlich, Band um 20 mm verkürzt",
	"check.opening kept by one central clip, shell":                                "Öffnung, die ein mittiger Clip lässt, räumlich",
	"checkkind.our other engine":                                                   "unser anderes Verfahren",
}
