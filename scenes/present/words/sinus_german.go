package words

var sinusGerman = map[string]string{
	"attribution.title":  "Wo blieb die Verkürzung?",
	"attribution.ideal":  "Wenn nichts im Wege wäre",
	"attribution.actual": "Am Anulus angekommen",
	"attribution.order":  "Jede Ursache der Reihe nach entfernt, gemittelt über alle Reihenfolgen: Die Teile ergeben genau das Ganze.",
	"attribution.helps":  "Ein Teil unter null hilft: Eine kurze Strecke um P2 wirkt dort, wo es zählt.",

	"cause.slack":     "Spiel und Streckung",
	"cause.slip":      "Rutschen des Ankers",
	"cause.wall":      "Nachgeben der Wand",
	"cause.elevation": "Höhe der Vene",
	"cause.uncovered": "Nicht erfasster Bogen",

	"say.cost.slack":     "das Strecken der Vene und ihr Spiel",
	"say.cost.slip":      "der rutschende Anker",
	"say.cost.wall":      "das Nachgeben der Vorhofwand",
	"say.cost.elevation": "die Höhe der Vene über dem Anulus",
	"say.cost.uncovered": "der nicht erfasste Bogen",
	"say.because.cost":   ", weil {name} {mm} kostet{more}",
	"say.because.more":   " und {name} {mm}",
}
