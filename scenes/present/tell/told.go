package tell

import (
	"fmt"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/words"
)

// Told says what the last repair of a case does, as if it had just been placed on the untreated valve; of a case
// without repairs it says how it is.
func Told(w *words.Words, s *study.Study) string {
	t := *s
	t.Had = false
	n := len(s.Case.Repairs)
	if n == 0 || !s.Solved || s.Failure != nil {
		t.Last = study.Change{Deed: study.Opened}
		return Sentence(w, &t)
	}
	last, same := s.Case.Repairs[n-1].Kind, 0
	for _, r := range s.Case.Repairs {
		if r.Kind == last {
			same++
		}
	}
	ref := string(last)
	if same > 1 {
		ref = fmt.Sprintf("%s#%d", ref, same)
	}
	t.Last = study.Change{Deed: study.Placed, ID: ref}
	return Sentence(w, &t)
}
