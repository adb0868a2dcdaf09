package words

// sinusEnglish holds what is said about a device in the coronary sinus and where its shortening went.
var sinusEnglish = map[string]string{
	"attribution.title":  "Where did the shortening go?",
	"attribution.ideal":  "With nothing in the way",
	"attribution.actual": "Reached the annulus",
	"attribution.order":  "Each cause removed in turn, averaged over all orders: the parts add up exactly.",
	"attribution.helps":  "A part below zero helps: a short stretch about P2 acts where it counts.",

	"cause.slack":     "Slack and straightening",
	"cause.slip":      "Anchor slip",
	"cause.wall":      "Give of the wall",
	"cause.elevation": "Height of the vein",
	"cause.uncovered": "Arc not reached",

	"tell.trial": "The rods are on trial: leak {a} without them, {b} with them; artery narrowed by {c} without, {d} with. Keep them or withdraw them.",

	"fit.least":   "It is {value}; allowed from {low} on.",
	"fit.most":    "It is {value}; allowed up to {high}.",
	"fit.between": "It is {value}; allowed {low} to {high}.",

	"say.cost.slack":     "taking up slack and straightening the vein",
	"say.cost.slip":      "the slipping anchor",
	"say.cost.wall":      "the give of the atrial wall",
	"say.cost.elevation": "the height of the vein above the annulus",
	"say.cost.uncovered": "the arc it does not reach",
	"say.because.cost":   ", because {name} costs {mm}{more}",
	"say.because.more":   " and {name} {mm}",
}
