package words

// saysEnglish holds the sentences made from a report.
var saysEnglish = map[string]string{
	"say.wait":   "Solving the valve …",
	"say.failed": "The valve could not be solved: {why}",

	"say.opened":      "{title}: the annulus is {sl} wide, and {leak}. Move “Shortening” to the right and see what it does.",
	"say.opened.done": "{title}, treated: {leak}.",
	"say.leaks":       "the valve leaks through an effective orifice of {eroa}",
	"say.tight":       "the valve is tight",
	"say.undone":      "Taken back: the annulus is {sl} wide, and {leak}.",
	"say.redone":      "Done again: the annulus is {sl} wide, and {leak}.",
	"say.restored":    "Back to the patient as opened: the annulus is {sl} wide, and {leak}.",

	"say.band":      "Shortening the sinus by {short} {pulled}{because}; {leak}{price}.",
	"say.band.pull": "pulled the annulus {mm} narrower, {pct} of what a band on the annulus would do",
	"say.band.none": "left the annulus as wide as it was",
	"say.band.zero": "The anchors are in the vein, but the tether between them is not shortened: nothing pulls on the annulus.",

	"say.clip":       "The clip at {place} holds {width} of both edges: {leak}, and the opening went from {a} to {b} in {n|one orifice|# orifices}{gradient}.",
	"say.clip.lost":  "The clip at {place} holds nothing, because the gap of {gap} there is wider than it can reach: {leak}.",
	"say.clip.loose": "The clip at {place} does not hold both leaflets: {leak}.",
	"say.gradient":   ", so the mean gradient rose from {a} to {b}",

	"say.turned":  "{name} went from {from} to {to}: {effect}.",
	"say.placed":  "{name} in place: {effect}.",
	"say.removed": "{name} taken away: {effect}.",
	"say.chosen":  "{name} is now {to}: {effect}.",
	"say.and":     "{a}, and {b}",

	"say.leak.fell":    "the leak fell from {a} to {b}",
	"say.leak.rose":    "the leak rose from {a} to {b}",
	"say.leak.same":    "the leak stayed at {b}",
	"say.leak.tight":   "no leak appeared",
	"say.sl.fell":      "the annulus became {mm} narrower",
	"say.sl.rose":      "the annulus became {mm} wider",
	"say.contact.fell": "the leaflets now touch over {b} instead of {a}",
	"say.contact.rose": "the leaflets now touch over {b} instead of {a}",
	"say.opening.fell": "the opening shrank from {a} to {b}",
	"say.opening.rose": "the opening grew from {a} to {b}",
	"say.carry":        "the sinus band now carries {b} of its shortening to the annulus instead of {a}",
	"say.artery":       "the circumflex artery now narrows by {b} instead of {a}",
	"say.price":        ", but the circumflex artery narrows by {pct}",
	"say.nothing":      "no number changed at the precision shown",

	"tell.state":    "{title}. Septal-lateral diameter {sl}, before {sl0}. Contact {contact}, largest gap {gap}. Effective leak orifice {eroa}, before {eroa0}; leak volume {vol} a beat. Opening {open} in {n|one orifice|# orifices}, mean gradient {grad}.",
	"tell.artery":   "Circumflex artery narrowed by {pct} in the worst view, risk {risk}.",
	"tell.view":     "Seen {view}: the aorta is at 12 o'clock, the anterolateral commissure at 9, the posteromedial at 3, P1 to P3 from left to right along the lower edge.",
	"tell.free":     "Seen from a free direction, azimuth {az} degrees, elevation {el} degrees.",
	"risk.low":      "low",
	"risk.possible": "possible",
	"risk.likely":   "likely",
}
