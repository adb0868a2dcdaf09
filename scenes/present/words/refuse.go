package words

import (
	"regexp"
	"strconv"
	"strings"
)

// Fault is the text of a refusal in the language; a text that begins with a known one keeps its end.
func (w *Words) Fault(problem string) string {
	if w.Lang != German {
		return w.maybeDouble(problem)
	}
	if s, ok := germanTables["fault."+problem]; ok {
		return s
	}
	for i := len(problem) - 1; i > 0; i-- {
		if s, ok := germanTables["fault."+problem[:i]]; ok {
			return s + problem[i:]
		}
	}
	return problem
}

// Allowed is what a refusal allows, in the language: numbers, "to", "at least" and "at most" are put into it, the rest
// is names of fields and stays.
func (w *Words) Allowed(text string) string {
	if w.Lang != German {
		return w.maybeDouble(text)
	}
	if s, ok := germanTables["allowed."+text]; ok {
		return s
	}
	text = strings.NewReplacer("an annulus ", "ein Anulus von ", " mm round", " mm Umfang", " to ", " bis ", "at least", "mindestens", "at most", "höchstens", " and ", " und ", " or ", " oder ").Replace(text)
	return point().ReplaceAllString(text, "$1,$2")
}

func point() *regexp.Regexp  { return regexp.MustCompile(`(\d)\.(\d)`) }
func figure() *regexp.Regexp { return regexp.MustCompile(`(?:^|[ (±])([-−]?\d+(?:\.\d+)?)`) }

// Numbered translates a text of a table whose translation has gaps {1}, {2} … for the numbers of the English text, in
// their order and with the language's decimal mark.
func (w *Words) Numbered(key, text string) string {
	s := w.Table(key, text)
	if w.Lang != German || !strings.Contains(s, "{1}") {
		return s
	}
	for i, m := range figure().FindAllStringSubmatch(text, -1) {
		n := strings.NewReplacer(".", ",", "-", "−").Replace(m[1])
		s = strings.ReplaceAll(s, "{"+strconv.Itoa(i+1)+"}", n)
	}
	return s
}
