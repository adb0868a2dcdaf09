package words

// curvesGerman is the German of what can be wrong with measured curves and their files. A % stands for a number or for
// something in quotes of the English text, in the order in which they stand there.
var curvesGerman = map[string]string{
	"curve.annulus": "Anulus",
	"curve.sinus":   "Sinus",
	"curve.artery":  "Arterie",
	"curve.unit":    "Einheit",

	"allowed.a course along the vein, nearer than 30 mm":          "ein Verlauf entlang der Vene, näher als 30 mm",
	"allowed.an artery together with a sinus":                     "eine Arterie zusammen mit einem Sinus",
	"allowed.points of one curve, in any order and any frame":     "Punkte einer einzigen Kurve, in beliebiger Reihenfolge und Lage",
	"allowed.one unit for all curves":                             "eine Einheit für alle Kurven",
	"allowed.an open centreline":                                  "eine offene Mittellinie",
	"allowed.one open curve":                                      "eine offene Kurve",
	"problem.makes the annulus about % mm round":                  "macht den Anulus rund % mm im Umfang",
	"problem.the centreline meets itself % and % mm from its end": "die Mittellinie trifft sich selbst, % und % mm von ihrem Ende",

	// The fit of the points.
	"problem.%° of the contour has no points (at most %°)":                                                                         "%° der Kontur sind ohne Punkte (höchstens %°)",
	"problem.the contour crosses itself between points % and %":                                                                    "die Kontur kreuzt sich zwischen den Punkten % und %",
	"problem.the fitted contour crosses itself":                                                                                    "die angepasste Kontur kreuzt sich selbst",
	"problem.one commissure is given":                                                                                              "nur eine Kommissur ist angegeben",
	"problem.the given commissures lie % mm apart on the curve":                                                                    "die angegebenen Kommissuren liegen auf der Kurve % mm auseinander",
	"problem.the middle between the given commissures lies outside the contour":                                                    "die Mitte zwischen den angegebenen Kommissuren liegt außerhalb der Kontur",
	"problem.the given commissures, A% and atrial side contradict each other":                                                      "die angegebenen Kommissuren, A% und die Vorhofseite widersprechen einander",
	"problem.both Normal and AtrialSide are given":                                                                                 "Normale und Vorhofseite sind beide angegeben",
	"problem.landmark AtrialSide lies % mm from the plane of the annulus":                                                          "die Vorhofseite liegt % mm von der Ebene des Anulus",
	"problem.the two halves of the contour are alike (% and % mm deep), so front and back cannot be told apart":                    "die beiden Hälften der Kontur sind gleich (% und % mm tief), so dass vorn und hinten nicht zu unterscheiden sind",
	"problem.the annulus is flat (% mm high, at least % needed), so its landmarks cannot be found":                                 "der Anulus ist flach (% mm hoch, mindestens % nötig), so dass seine Marken nicht zu finden sind",
	"problem.the contour is as wide along its low points as along its high points (% and % mm), so the atrial side cannot be told": "die Kontur ist entlang ihrer tiefen Punkte so weit wie entlang ihrer hohen (% und % mm), so dass die Vorhofseite nicht zu erkennen ist",
	"problem.% points are outside % to %":                                                                                          "% Punkte liegen außerhalb von % bis %",
	"problem.point % = (%, %, %) is not finite or beyond % m":                                                                      "Punkt % = (%, %, %) ist nicht endlich oder jenseits von % m",
	"problem.perimeter = % is outside % to % mm":                                                                                   "Umfang = % liegt außerhalb von % bis % mm",
	"problem.length = % is outside % to % mm":                                                                                      "Länge = % liegt außerhalb von % bis % mm",
	"problem.the points lie too unevenly to fit a spline":                                                                          "die Punkte liegen zu ungleichmäßig für eine glatte Kurve",
	"problem.the eigenvalues of the spline did not converge":                                                                       "die glatte Kurve ließ sich nicht berechnen",
	"problem.% radii for % points":                                                                                                 "% Radien für % Punkte",
	"problem.point % radius = % mm is outside % to % mm":                                                                           "Punkt %: Radius = % mm liegt außerhalb von % bis % mm",

	"problem.perimeter = % is outside % to % mm; the points look like mm": "Umfang = % liegt außerhalb von % bis % mm; die Punkte sehen nach mm aus",
	"problem.perimeter = % is outside % to % mm; the points look like cm": "Umfang = % liegt außerhalb von % bis % mm; die Punkte sehen nach cm aus",
	"problem.perimeter = % is outside % to % mm; the points look like m":  "Umfang = % liegt außerhalb von % bis % mm; die Punkte sehen nach m aus",
	"problem.length = % is outside % to % mm; the points look like mm":    "Länge = % liegt außerhalb von % bis % mm; die Punkte sehen nach mm aus",
	"problem.length = % is outside % to % mm; the points look like cm":    "Länge = % liegt außerhalb von % bis % mm; die Punkte sehen nach cm aus",
	"problem.length = % is outside % to % mm; the points look like m":     "Länge = % liegt außerhalb von % bis % mm; die Punkte sehen nach m aus",

	// Files of any kind.
	"problem.the file has no points: give x, y, z, one point per line":                "die Datei hat keine Punkte: x, y, z angeben, einen Punkt je Zeile",
	"problem.the file has no points":                                                  "die Datei hat keine Punkte",
	"problem.the file is larger than % MB: give one contour or centreline":            "die Datei ist größer als % MB: eine Kontur oder Mittellinie angeben",
	"problem.reading failed:":                                                         "das Lesen misslang:",
	"problem.% radii for % points: give one per point":                                "% Radien für % Punkte: einen je Punkt angeben",
	"problem.a line names point %, the file has % to %":                               "eine Linie nennt Punkt %, die Datei hat % bis %",
	"problem.% points, at most % are read: thin the curve":                            "% Punkte, höchstens % werden gelesen: die Kurve ausdünnen",
	"problem.point % x = % is outside ±% mm: correct the coordinate":                  "Punkt %: x = % liegt außerhalb von ±% mm: die Koordinate berichtigen",
	"problem.point % y = % is outside ±% mm: correct the coordinate":                  "Punkt %: y = % liegt außerhalb von ±% mm: die Koordinate berichtigen",
	"problem.point % z = % is outside ±% mm: correct the coordinate":                  "Punkt %: z = % liegt außerhalb von ±% mm: die Koordinate berichtigen",
	"problem.point % radius = % mm must be positive: correct or leave out the column": "Punkt %: Radius = % mm muss positiv sein: berichtigen oder die Spalte weglassen",

	// Tables.
	"problem.line %:": "Zeile %:",
	"problem.line % has % columns: give x, y, z and optionally radius, or a header":       "Zeile % hat % Spalten: x, y, z und wahlweise radius angeben, oder eine Kopfzeile",
	"problem.line % has % columns, the lines before it %: complete the line":              "Zeile % hat % Spalten, die Zeilen davor %: die Zeile ergänzen",
	"problem.line %, column %: % is not a finite number":                                  "Zeile %, Spalte %: % ist keine endliche Zahl",
	"problem.line %, column %: % is out of range (coordinates within ±%, radius above %)": "Zeile %, Spalte %: % liegt außerhalb des Bereichs (Koordinaten bis ±%, Radius über %)",
	"problem.more than % points: thin the curve":                                          "mehr als % Punkte: die Kurve ausdünnen",
	"problem.column % is in neither mm, cm nor m: convert it to mm":                       "Spalte % ist weder in mm noch cm noch m: in mm umrechnen",
	"problem.column % is in another unit than the one before (mm): use one unit":          "Spalte % hat eine andere Einheit als die davor (mm): eine Einheit verwenden",
	"problem.column % is in another unit than the one before (cm): use one unit":          "Spalte % hat eine andere Einheit als die davor (cm): eine Einheit verwenden",
	"problem.column % is in another unit than the one before (m): use one unit":           "Spalte % hat eine andere Einheit als die davor (m): eine Einheit verwenden",
	"problem.column % comes twice":                                                        "Spalte % kommt zweimal vor",
	"problem.% is neither numbers nor a header with x, y and z (column x is missing)":     "% sind weder Zahlen noch eine Kopfzeile mit x, y und z (Spalte x fehlt)",
	"problem.% is neither numbers nor a header with x, y and z (column y is missing)":     "% sind weder Zahlen noch eine Kopfzeile mit x, y und z (Spalte y fehlt)",
	"problem.% is neither numbers nor a header with x, y and z (column z is missing)":     "% sind weder Zahlen noch eine Kopfzeile mit x, y und z (Spalte z fehlt)",

	// VTK and VTP. What is wrong inside such a file is for whoever wrote the program that saved it, and stays English.
	"problem.VTK, line %:": "VTK, Zeile % (englisch):",
	"problem.VTP, line %:": "VTP, Zeile % (englisch):",
	"problem.VTP:":         "VTP (englisch):",
}
