package valve

import "annuloscope/sim/anatomy"

// ImportedNotice follows Notice wherever measured geometry is shown or written: the watermark in words.
const ImportedNotice = "Imported geometry: not an invented patient of the program; no grades and no selection rules are given for it."

// importedNote is why imported geometry has no grade.
const importedNote = "imported geometry is not graded"

// NoticeFor is the caution that goes with a patient: Notice, and for imported geometry ImportedNotice as well.
func NoticeFor(p *anatomy.Patient) string {
	if p.Imported {
		return Notice + " " + ImportedNotice
	}
	return Notice
}
