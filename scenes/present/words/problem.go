package words

import (
	"regexp"
	"strings"
)

// problemsGerman is the German of what can be wrong with a file or a link. A % stands for a number of the English text or something in quotes;
// a text that ends in a colon is the beginning of a longer one.
var problemsGerman = map[string]string{
	"problem.the file has % bytes, at most % are read":                         "die Datei hat % Bytes, höchstens % werden gelesen",
	"problem.not a shared state:":                                              "kein geteilter Zustand:",
	"problem.version % is unknown, this program reads % to %":                  "Version % ist unbekannt, dieses Programm liest % bis %",
	"problem.more than % plans":                                                "mehr als % Pläne",
	"problem.not a running order:":                                             "kein Ablauf:",
	"problem.the running order has no steps":                                   "der Ablauf hat keine Schritte",
	"problem.% steps, at most % are read":                                      "% Schritte, höchstens % werden gelesen",
	"problem.step %:":                                                          "Schritt %:",
	"problem.% characters, at most % are read":                                 "% Zeichen, höchstens % werden gelesen",
	"problem.it holds no state: what follows # must begin with state=":         "er enthält keinen Zustand: was auf # folgt, muss mit state= beginnen",
	"problem.version % is unknown, this program reads version %":               "Version % ist unbekannt, dieses Programm liest Version %",
	"problem.damaged, perhaps cut off when it was copied; copy the whole link": "beschädigt, vielleicht beim Kopieren abgeschnitten; den ganzen Link kopieren",
	"problem.it unpacks to more than % bytes":                                  "er ergibt ausgepackt mehr als % Bytes",
}

func digits() *regexp.Regexp {
	return regexp.MustCompile(`"[^"]*"|[-−]?\d+(?:\.\d+)?(?:e[-+]\d+)?`)
}

// Problem is an error's text in the language, the name of the package that made it left out. What has no translation
// stays English.
func (w *Words) Problem(text string) string {
	if name, rest, ok := strings.Cut(text, ": "); ok && !strings.ContainsAny(name, " ./") {
		text = rest
	}
	if w.Lang != German {
		return w.maybeDouble(text)
	}
	numbers := digits().FindAllString(text, -1)
	whole := digits().ReplaceAllString(text, "%")
	if s, ok := germanTables["problem."+whole]; ok {
		return numbered(s, numbers)
	}
	for i := 0; i < len(text); i++ { // the longest beginning that ends in a colon
		if text[i] != ':' {
			continue
		}
		head := text[:i+1]
		if s, ok := germanTables["problem."+digits().ReplaceAllString(head, "%")]; ok {
			return numbered(s, numbers) + " " + w.Problem(strings.TrimSpace(text[i+1:]))
		}
	}
	return w.Fault(text)
}

func numbered(s string, numbers []string) string {
	for _, n := range numbers {
		if !strings.HasPrefix(n, `"`) {
			n = strings.Replace(n, ".", ",", 1)
		}
		s = strings.Replace(s, "%", n, 1)
	}
	return s
}

// Warning is a note on a value that was replaced when a file was opened, in the language.
func (w *Words) Warning(text string) string {
	if w.Lang != German {
		return w.maybeDouble(text)
	}
	text = strings.NewReplacer(" is outside ", " liegt außerhalb von ", " is unknown", " ist unbekannt", " to ", " bis ", "step ", "Schritt ", "number: ", "Zahl: ").Replace(text)
	return point().ReplaceAllString(text, "$1,$2")
}
