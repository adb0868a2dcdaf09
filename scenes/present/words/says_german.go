package words

var saysGerman = map[string]string{
	"say.wait":   "Die Klappe wird berechnet …",
	"say.failed": "Die Klappe ließ sich nicht lösen: {why}",

	"say.opened":      "{title}: Der Anulus ist {sl} weit, und {leak}. „Verkürzung“ nach rechts schieben und sehen, was geschieht.",
	"say.opened.done": "{title}, behandelt: {leak}.",
	"say.leaks":       "die Klappe leckt durch eine effektive Öffnung von {eroa}",
	"say.tight":       "die Klappe ist dicht",
	"say.undone":      "Zurückgenommen: Der Anulus ist {sl} weit, und {leak}.",
	"say.redone":      "Wiederholt: Der Anulus ist {sl} weit, und {leak}.",
	"say.restored":    "Zurück zum Patienten wie geöffnet: Der Anulus ist {sl} weit, und {leak}.",

	"say.band":      "Den Sinus um {short} zu verkürzen {pulled}{because}; {leak}{price}.",
	"say.band.pull": "zog den Anulus um {mm} enger, {pct} dessen, was ein Band am Anulus selbst bewirkt",
	"say.band.none": "ließ den Anulus so weit, wie er war",
	"say.band.zero": "Die Anker liegen in der Vene, doch das Band dazwischen ist nicht verkürzt: Nichts zieht am Anulus.",

	"say.clip":       "Der Clip bei {place} hält {width} beider Kanten: {leak}, und die Öffnung ging von {a} auf {b} in {n|einer Öffnung|# Öffnungen}{gradient}.",
	"say.clip.lost":  "Der Clip bei {place} hält nichts, weil der Spalt von {gap} dort weiter ist, als er greifen kann: {leak}.",
	"say.clip.loose": "Der Clip bei {place} hält nicht beide Segel: {leak}.",
	"say.gradient":   ", sodass der mittlere Gradient von {a} auf {b} stieg",

	"say.turned":  "{name} ging von {from} auf {to}: {effect}.",
	"say.placed":  "{name} eingesetzt: {effect}.",
	"say.removed": "{name} entfernt: {effect}.",
	"say.chosen":  "{name} ist nun {to}: {effect}.",
	"say.and":     "{a}, und {b}",

	"say.leak.fell":    "das Leck fiel von {a} auf {b}",
	"say.leak.rose":    "das Leck stieg von {a} auf {b}",
	"say.leak.same":    "das Leck blieb bei {b}",
	"say.leak.tight":   "kein Leck entstand",
	"say.sl.fell":      "der Anulus wurde um {mm} enger",
	"say.sl.rose":      "der Anulus wurde um {mm} weiter",
	"say.contact.fell": "die Segel berühren sich nun über {b} statt {a}",
	"say.contact.rose": "die Segel berühren sich nun über {b} statt {a}",
	"say.opening.fell": "die Öffnung schrumpfte von {a} auf {b}",
	"say.opening.rose": "die Öffnung wuchs von {a} auf {b}",
	"say.carry":        "das Band im Sinus überträgt nun {b} seiner Verkürzung auf den Anulus statt {a}",
	"say.artery":       "der Ramus circumflexus ist nun um {b} verengt statt um {a}",
	"say.price":        ", doch der Ramus circumflexus verengt sich um {pct}",
	"say.nothing":      "keine Zahl änderte sich in der gezeigten Genauigkeit",

	"tell.state":    "{title}. Septolateraler Durchmesser {sl}, vorher {sl0}. Kontakt {contact}, größter Spalt {gap}. Effektive Lecköffnung {eroa}, vorher {eroa0}; Leckvolumen {vol} je Schlag. Öffnung {open} in {n|einer Öffnung|# Öffnungen}, mittlerer Gradient {grad}.",
	"tell.artery":   "Ramus circumflexus in der schlechtesten Sicht um {pct} verengt, Risiko {risk}.",
	"tell.view":     "Gesehen {view}: die Aorta bei 12 Uhr, die anterolaterale Kommissur bei 9, die posteromediale bei 3, P1 bis P3 von links nach rechts am unteren Rand.",
	"tell.free":     "Frei gedreht, Azimut {az} Grad, Höhe {el} Grad.",
	"risk.low":      "gering",
	"risk.possible": "möglich",
	"risk.likely":   "wahrscheinlich",
}
