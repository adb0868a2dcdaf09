package words

// beatGerman is the scene of the beat.
var beatGerman = map[string]string{
	"beat.tab.move":       "Schlag",
	"beat.tab.waves":      "Kurven",
	"beat.tab.loop":       "Schleife",
	"beat.tab.laboratory": "Labor",
	"beat.tab.rules":      "Grade",
	"beat.tab.heart":      "Herz",

	"knob.anatomy/heart.rate_change_per_min": "Änderung der Herzfrequenz",
	"knob.anatomy/heart.exercise":            "Anstrengung (0 Ruhe, 1 zügig)",
	"knob.anatomy/heart.adaptation":          "Mit dem Leck gewachsen (0 nicht, 1 Jahre)",

	"beat.pause": "Anhalten",
	"beat.go":    "Weiter",

	"beat.orifice":      "Leck: effektive Öffnung (cm²)",
	"beat.orifice.line": "Leck: Mittsystole {mid} (zählt für den Grad, Punkt), Mittel {mean}, Spitze {peak}.",

	"lab.of.opening":      "Öffnung",
	"lab.of.leak orifice": "Lecköffnung",
	"lab.of.leak volume":  "Leckvolumen",

	"lab.title": "Wie ein Labor es läse",
	"lab.intro": "Die üblichen Formeln auf diese Kurven und die wirkliche Form des Lecks angewandt. Daneben steht, was im Modell wahr ist.",
	"lab.reads": "liest {value}, wahr {true}: {error} %",
	"lab.tight": "Das Leck ist zu klein, um gemessen zu werden.",
	"lab.slit":  "Leck in der Mittsystole: {length} mal {width}. Das Blut erreicht {alias} {radius} davor.",

	"rules.grades":         "Grad des Lecks",
	"rules.disagree":       "Ein Schema nennt dieses Leck schwer, ein anderes nicht.",
	"rules.opening":        "Öffnung",
	"rules.after":          "Nach Clip oder Naht: veröffentlichte Marken",
	"rules.selection":      "Historische Auswahlregeln, in der Praxis oft überschritten",
	"rules.selection.note": "Die Klappe vor der Behandlung, jeder Wert an seiner Regel. Kein Urteil über einen Menschen.",
	"rules.later":          "Was die Eingriffe später verschließen",

	"heart.intro": "Was das Herz seit den Messungen tut. Die Klappe ist dieselbe.",

	"tip.inputs.bond": "der Spalt, den Clip oder Naht geschlossen hält, ihre Steife und der Anulus",
	"tip.later":       "Später",
}

// beatTablesGerman is the German of the laboratory, the selection rules, the bonds and what repairs close off.
var beatTablesGerman = map[string]string{
	"lab.gorlin":             "Gorlin, Fluss durch die Klappe",
	"lab.gorlin-forward":     "Gorlin, nur der Auswurf nach vorn",
	"lab.half-time":          "Druckhalbwertszeit, 220 ÷ ms",
	"lab.continuity":         "Kontinuität, Aortenschlag ÷ Einstromintegral",
	"lab.volumetric":         "Volumetrisch: Leckvolumen ÷ Strahlintegral",
	"lab.volumetric-wide":    "Volumetrisch, Anulus 1 mm zu weit gelesen",
	"lab.convergence":        "Flusskonvergenz, Halbkugel",
	"lab.convergence-near":   "Flusskonvergenz, Halbkugel, Nahfeld",
	"lab.convergence-volume": "Flusskonvergenz × Strahlintegral",

	"labwhy.gorlin":             "eine Konstante (37,7) steht für Einschnürung und Verlust; die Wurzel des Mittels ist nicht das Mittel der Wurzel; Trägheit",
	"labwhy.gorlin-forward":     "auch das Leck fließt durch die Klappe, aber der Auswurf an der Aorta lässt es aus",
	"labwhy.half-time":          "die 220 gehört zu einer Dehnbarkeit und einem Anfangsdruck und zu engen Klappen",
	"labwhy.continuity":         "ein Leck fließt zweimal durch die Klappe und nie durch die Aorta: die Fläche liest sich um den Leckanteil zu klein",
	"labwhy.volumetric":         "gibt das mit der Strahlgeschwindigkeit gewogene Mittel der Systole; wahr ist die mittsystolische Öffnung",
	"labwhy.volumetric-wide":    "das Leck ist der kleine Unterschied zweier großer Volumen, und der Durchmesser geht quadratisch ein",
	"labwhy.convergence":        "die Fläche gilt als Halbkugel; vor einem Schlitz ist sie lang und flach, ihr Radius also zu klein",
	"labwhy.convergence-near":   "dasselbe, der Zufluss über das Loch verteilt statt entlang seiner Länge",
	"labwhy.convergence-volume": "ein Augenblick steht für die ganze Systole",

	"criterion.opening by planimetry": "Öffnung, planimetrisch",
	"criterion.contact length":        "Kontaktlänge",
	"criterion.contact depth":         "Kontakttiefe",
	"criterion.flail gap":             "Spalt des durchschlagenden Segels",
	"criterion.flail width":           "Breite des durchschlagenden Segels",
	"criterion.origin of the leak, distance from the middle of the line": "Ursprung des Lecks, Abstand von der Mitte der Linie",
	"criterion.calcified length where the clip holds":                    "verkalkte Länge, wo der Clip hält",
	"criterion.end-systolic diameter":                                    "endsystolischer Durchmesser",
	"criterion.ejection fraction":                                        "Auswurffraktion",
	"criterion.effective opening":                                        "effektive Öffnung",
	"criterion.mean gradient":                                            "mittlerer Gradient",
	"criterion.mean gradient, echo warning":                              "mittlerer Gradient, Warnschwelle im Echo",

	"criterion.pulmonary systolic pressure":                                         "systolischer Lungendruck",
	"scheme.narrowness of the opening, 2009, three steps (the first: none or mild)": "Enge der Öffnung, 2009, drei Stufen (die erste: keine oder leicht)",

	"says.met":         "erfüllt",
	"says.within 10 %": "innerhalb 10 %",
	"says.outside":     "außerhalb",

	"later.sinus-band":            "Die Vene nimmt vielleicht keine Schrittmachersonde mehr auf und kein zweites Gerät. Segel und Anulus bleiben unberührt: Clip, Ring, Operation oder Katheterklappe bleiben möglich.",
	"later.sinus-rods":            "Die Vene nimmt keine Schrittmachersonde auf, solange die Stäbe liegen. Sie lassen sich entfernen; alles andere bleibt möglich.",
	"later.edge-clip":             "Jeder Clip kostet Öffnung, ein weiterer kann die Klappe also zu eng machen. Später ersetzt der Chirurg oft, statt zu reparieren. Eine Katheterklappe verlangt, die Verbindung vorher zu trennen. Ein Band in der Vene oder am Anulus bleibt möglich.",
	"later.edge-stitch":           "Ein Clip daneben findet weniger Rand, und eine Katheterklappe trifft auf zwei Öffnungen. Ohne Ring weitet sich der Anulus weiter, und die Naht trägt den Zug: siehe Zug der Verbindung und Restweite des Anulus.",
	"later.posterior-band":        "Ein Band in der Vene bringt danach wenig. Eine Katheterklappe findet später keinen geschlossenen Ring als Halt. Clip und Operation bleiben möglich.",
	"later.full-ring":             "Der Ring begrenzt die Öffnung für immer: ein Clip in einem kleinen Ring kann sie zu eng machen, und ein Band in der Vene wirkt nicht mehr. Eine Katheterklappe kann in den Ring gesetzt werden.",
	"later.papillary-relocation":  "Sie verlangt eine Operation, und eine zweite an den Muskeln ist schwerer. Der Anulus ist unberührt: Band, Ring und Clip bleiben möglich.",
	"later.ventricular-reshaping": "Sie verlangt eine Operation oder ein Implantat in der Kammer, das späteren im Weg sein kann. Die Klappe ist unberührt: Band, Ring und Clip bleiben möglich.",
	"later.unloading":             "Nichts. Sie kommt vor jedem Gerät, und was sie ändert, muss abgewartet werden, ehe man ein Gerät wählt.",

	"source.opening: physics.md A3 (S2: 6.0 → 3.6 cm²); the rest common practice, no source": "Öffnung: physics.md A3 (S2: 6,0 → 3,6 cm²); der Rest übliche Praxis, ohne Quelle",
	"source.two openings: physics.md A2 (S1, S4); the rest common practice, no source":       "zwei Öffnungen: physics.md A2 (S1, S4); der Rest übliche Praxis, ohne Quelle",

	"quantity.bond.tension_n":           "Verbindung: Zug, geschlossen",
	"quantity.bond.diastolic_tension_n": "Verbindung: Zug, offen",
	"quantity.bond.annulus_left_mm":     "Verbindung: Restweite des Anulus",
	"meaning.bond.tension_n":            "Größter Zug eines Clips oder einer Naht an den Rändern",
	"meaning.bond.diastolic_tension_n":  "Größter Zug eines Clips oder einer Naht beim Einstrom",
	"meaning.bond.annulus_left_mm":      "Septolateraler Durchmesser über dem normalen Mittel von 28 mm, den die Verbindung zusammenhalten muss",
	"formula.bond.tension_n":            "Steife der Verbindung × Spalt, den sie geschlossen hält",
	"formula.bond.diastolic_tension_n":  "Druckunterschied auf das Gewebe neben der Verbindung",
	"formula.bond.annulus_left_mm":      "septolateraler Durchmesser − 28 mm",
	"limits.bond.tension_n":             "Konstanten der Verbindung sind erfunden",
	"limits.bond.diastolic_tension_n":   "Schätzung aus der Form der Öffnung",
	"limits.bond.annulus_left_mm":       "0, wenn nicht darüber",

	"quantity.regurgitation.effective_orifice_peak_cm2": "Leck: effektive Öffnung, Spitze",
	"meaning.regurgitation.effective_orifice_peak_cm2":  "Größte effektive Öffnung in der Systole",
	"formula.regurgitation.effective_orifice_peak_cm2":  "Spitze des Verlaufs der Öffnung",
	"limits.regurgitation.effective_orifice_peak_cm2":   "der Verlauf gehört zum Mechanismus des Falls, nicht zu einem Menschen",
}
