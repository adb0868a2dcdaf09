package words

// stripEnglish holds the words of the strip beyond its first ones.
var stripEnglish = map[string]string{
	"strip.clearance":       "Artery clearance",
	"strip.most":            "most {value}",
	"strip.least":           "least {value}",
	"strip.ask":             "Question",
	"strip.ask.shortening":  "More shortening",
	"strip.ask.losses":      "Losses",
	"strip.ask.anchor":      "Far anchor",
	"strip.ask.weeks":       "Weeks",
	"strip.anchor":          "What another place of the far anchor would do, at the same share of shortening",
	"strip.anchor.axis":     "Station of the far anchor (mm)",
	"strip.weeks":           "Half of the shortening comes within {days}",
	"strip.weeks.none":      "The whole shortening comes at once. Set a half-time of the shortening to spread it over weeks.",
	"strip.weeks.axis":      "Days since placement",
	"label.marginal.branch": "marginal branch",
	"label.diagonal.branch": "diagonal branch",
	"attribution.none":      "There is no device in the sinus that pulls. Place the band and shorten it.",
}
