package words

import "strings"

// Keys names keys as they are printed on the keyboard of the language.
func (w *Words) Keys(keys string) string {
	if w.Lang != German {
		return keys
	}
	return strings.NewReplacer("Page", "Bild", "Home", "Pos1", "End", "Ende", "Enter", "Eingabe", "Space", "Leertaste", "Ctrl", "Strg", "Escape", "Esc", "Shift", "Umschalt").Replace(keys)
}
