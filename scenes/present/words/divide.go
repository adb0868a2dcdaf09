package words

import "strings"

// parts are long words of the tables with a stroke where they may be divided at the end of a line.
var parts = []string{
	"Koaptations|tiefe", "Koaptations|punkt", "Kommissuren|durch|messer", "Kommissuren|weite", "Septo|lateraler", "Durch|messer", "End|diastolisches", "End|systolisches",
	"Öffnungs|fläche", "Auswurf|fraktion", "Kontakt|länge", "Vorhof|druck", "Leck|volumen", "Schlag|volumen", "Sattel|höhe", "Zelt|fläche", "Zelt|volumen",
	"Regurgitations|öffnung", "Antero|laterale", "Postero|mediale", "Antero|lateraler", "Postero|medialer", "Papillar|muskeln", "Inter|ventrikular|vene",
	"Herz|frequenz", "Behandlungs|planung", "Einstel|lungen", "circum|flexus", "Verkür|zung", "Ent|lastung", "Ver|lagerung", "Um|formung",
	"commis|sure", "Antero|lateral", "Postero|medial", "Septal-|lateral", "trans|mitted",
}

// Divide lists the bytes of a word at which it may be divided.
func Divide(word string) []int {
	for _, p := range parts {
		whole := strings.ReplaceAll(p, "|", "")
		if len(word) < len(whole) || !strings.EqualFold(word[:len(whole)], whole) {
			continue
		}
		var at []int
		n := 0
		for i, piece := range strings.Split(p, "|") {
			if i > 0 {
				at = append(at, n)
			}
			n += len(piece)
		}
		return at
	}
	return nil
}
