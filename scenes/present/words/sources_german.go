package words

import "strings"

// Source is where a number comes from, in the language: references stay as they are, the words between them are German.
func (w *Words) Source(text string) string {
	if w.Lang != German {
		return w.maybeDouble(text)
	}
	if s, ok := germanTables["source."+text]; ok {
		return s
	}
	text = strings.NewReplacer("chosen for the invented normal adult", "für den erfundenen gesunden Erwachsenen gewählt", "chosen; no source found", "gewählt; keine Quelle gefunden",
		"common practice, no source", "üblicher Gebrauch, keine Quelle", "factors from memory", "Faktoren aus dem Gedächtnis", "from memory", "aus dem Gedächtnis",
		"chosen", "gewählt", "posterior part", "hinterer Teil", "septal-lateral", "septolateral", "commissural", "kommissural", "and others less", "und andere weniger",
		"area", "Fläche", "functional", "funktionell", "in large ventricles", "in großen Kammern", "ends", "endet", "behind each trigone", "hinter jedem Trigonum",
		" of the posterior annulus covered", " des hinteren Anulus bedeckt", "oblique", "schräg", "below", "unter", "plane to plane", "Ebene zu Ebene", "arched in", "gebogen bei",
		"between vein and interventricular vein", "zwischen Vene und Interventrikularvene", "right dominant", "Rechtsversorgung", "directly beneath in", "unmittelbar darunter bei",
		"within", "innerhalb von", "about", "etwa", "v wave grows as compliance falls", "die v-Welle wächst, wenn die Dehnbarkeit sinkt", "acute to chronic", "akut bis chronisch",
		"chronic", "chronisch", "decompensated", "dekompensiert", " to ", " bis ", " of ", " von ", " from ", " von ", " by ", " mal ", " over ", " zu ", " in ", " bei ").Replace(text)
	return point().ReplaceAllString(text, "$1,$2")
}
