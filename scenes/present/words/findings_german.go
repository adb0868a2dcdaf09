package words

// findingsGerman is the German of findings. {1}, {2} … are the numbers of the English text, in their order.
var findingsGerman = map[string]string{
	"finding.clip-not-grasped": "Der Clip bei {1} greift nichts: Der Spalt dort misst {2} mm, mehr als seine Reichweite. Er wirkt nicht.",
	"finding.clip-poor-grip":   "Der Clip bei {1} hält nur wenig Segel (Halt {2} %).",
	"finding.clip-detached":    "Der Clip bei {1} hält nur ein Segel: Er verbindet nichts.",
	"finding.gradient":         "Der mittlere Gradient beträgt {1} mmHg und liegt an oder über der Warnschwelle von {2} mmHg.",
	"finding.artery":           "Der Ramus circumflexus verengt sich um {1} % in der schlechtesten Sicht.",
	"finding.flail-limit":      "Der gerissene Abschnitt ist breiter, als das Schnittmodell folgen kann; sein Überstand ist beim größten festgehalten, bei dem er noch eine geschlossene Form hat, oder bei {1} mm.",
	"finding.trace-leak":       "Das gemessene Leck ist eine Spur ({1} cm²). Das Modell nimmt dafür am Jet Kontakt weg ({2} mm), bei einer dichten Klappe keinen: Was seither geändert wird, kann ganz anders wirken als an einer dichten Klappe.",
	"finding.annulus-folds":    "Der Anulus faltet sich auf sich selbst zurück (Stellen: {1}): Dort wird mehr gerafft, als das Modell verkürzen kann. Eine kleine Änderung kann eine Falte springen lassen und den septolateralen Durchmesser um bis zu einen Millimeter.",
	"finding.shell-failed":     "Die dreidimensionalen Segel kamen nicht zur Ruhe: Es gelten die Zahlen der Schnitte.",
	"finding.shell-ring":       "Die dreidimensionalen Segel und der Anulus kamen unter den Clips nicht ganz ins Gleichgewicht: Der Zug an einem Knoten änderte sich noch um {1} N.",
	"finding.shell-torn":       "Ein abgerissenes Segel kann in drei Dimensionen zwei Ruhelagen haben, umgeschlagen und zugefallen. Das Modell beginnt jedes Mal neu und behält die erste, die es findet; ein Herz kann die andere nehmen.",
	"finding.tethered":         "Ein Teil des Segels ist gerade gezogen: Dort endet das Modell.",
	"finding.interval":         "Das Leck nach der Behandlung ist nur zwischen {1} und {2} cm² bekannt: Hier zählen erfundene Konstanten des Modells.",
	"finding.pressure-lost":    "Das Leck nimmt mehr als die Hälfte des Drucks, der die Klappe schließt; das Modell hält ihn bei der Hälfte fest. Ein solches Herz hielte nicht lange.",
	"finding.not-converged":    "Die Rechnung hat nicht konvergiert. Die Zahlen nicht verwenden.",
	"finding.band-separated":   "Das Band ist gerissen: Es zieht nicht mehr.",
	"finding.anchor-slip":      "Ein Anker rutscht um {1} mm: Der Zug von {2} N übersteigt seinen Halt.",
	"finding.anchor-wide":      "Die Vene ist am Anker weit: Er sitzt vielleicht nicht.",
	"finding.anchor-narrow":    "Die Vene ist am Anker eng: Er kommt vielleicht nicht hindurch.",
	"finding.vein-bend":        "Die Vene knickt zwischen den Ankern: Das Band kommt vielleicht nicht hindurch.",
	"finding.band-short":       "Zwischen den Ankern liegt nur eine kurze Strecke.",
	"finding.beyond-crossing":  "Der ferne Anker liegt {1} mm jenseits der Kreuzung des Ramus circumflexus.",
}
