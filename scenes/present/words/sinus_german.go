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

	"tell.trial": "Die Stäbe sind auf Probe: Leck {a} ohne sie, {b} mit ihnen; Arterie verengt um {c} ohne, {d} mit. Behalten oder zurückziehen.",

	"fit.least":   "Es sind {value}; erlaubt ab {low}.",
	"fit.most":    "Es sind {value}; erlaubt bis {high}.",
	"fit.between": "Es sind {value}; erlaubt {low} bis {high}.",

	"say.cost.slack":     "das Strecken der Vene und ihr Spiel",
	"say.cost.slip":      "der rutschende Anker",
	"say.cost.wall":      "das Nachgeben der Vorhofwand",
	"say.cost.elevation": "die Höhe der Vene über dem Anulus",
	"say.cost.uncovered": "der nicht erfasste Bogen",
	"say.because.cost":   ", weil {name} {mm} kostet{more}",
	"say.because.more":   " und {name} {mm}",
}

// sinusTablesGerman is the German of findings and choices about devices and the vein.
var sinusTablesGerman = map[string]string{
	"repair.sinus-rods.trial":         "1: auf Probe: Leck und Arterie mit und ohne Stäbe, dann behalten oder zurückziehen",
	"finding.rods-on-trial":           "Die Stäbe sind auf Probe.",
	"choice.sinus.distance_with_leak": "Vene bei Leck weiter vom Anulus? (Quellen uneins)",
	"choice.body.scaling":             "Größe des Anulus",
	"option.unchanged":                "unverändert", "option.raised": "weiter", "option.as-stated": "wie angegeben", "option.by-surface": "nach Körperoberfläche",
	"quantity.sinus.slip_mm":                          "Rutschen des Ankers",
	"quantity.sinus.max_contact_n_per_mm":             "Größter Druck auf die Vene",
	"quantity.artery.best_view_narrowing_pct":         "Arterie: Enge, beste Sicht",
	"quantity.artery.band_alone_pct":                  "Arterie: Enge durch Band oder Stäbe allein",
	"quantity.artery.anchor_alone_pct":                "Arterie: Enge durch die Anker allein",
	"quantity.artery.branch_worst_view_narrowing_pct": "Äste: Enge, schlechteste Sicht",
	"finding.vein-length":                             "Die Vene ist zu kurz: Das ferne Ende läge in der vorderen Kammervene oder dahinter.",
	"finding.vein-mouth":                              "Das nahe Ende hinge aus der Mündung in den rechten Vorhof.",
	"finding.band-long":                               "So lange Bänder gibt es nicht.",
	"finding.band-shortening":                         "So viel Verkürzung zieht die Anker zueinander statt den Anulus zusammen.",
	"finding.rods-wide":                               "Die Vene ist zu eng für so viele Stäbe nebeneinander.",
	"finding.posterior-arc":                           "Kein Band passt auf diesen hinteren Bogen.",
	"finding.posterior-downsizing":                    "So viel Verkürzung reißt die Nähte vielleicht aus.",
	"finding.ring-size":                               "Der Ring passt nicht: zu klein reißt er aus oder engt den Einstrom ein, zu groß rafft er nichts.",
	"finding.clip-room":                               "Zwei Clips oder Nähte liegen aufeinander.",
	"finding.clip-calcium":                            "Unter dem Clip liegt Kalk: Er hält die Kanten auseinander.",
	"finding.artery-size":                             "Der Ramus circumflexus ist für diesen Versorgungstyp ungewöhnlich weit oder eng.",
}
