package valve

import "annuloscope/sim/repair"

// Later says what a repair in the case closes off later, in words with its source.
type Later struct {
	Kind   string `json:"kind"`
	Title  string `json:"title"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

// laterOf lists each kind once, in the order of the case.
func laterOf(steps []repair.Step) []Later {
	var out []Later
	seen := map[repair.Kind]bool{}
	for _, s := range steps {
		if spec, ok := repair.Find(s.Kind); ok && !seen[s.Kind] {
			seen[s.Kind] = true
			out = append(out, Later{string(s.Kind), spec.Title, spec.ClosesOff, spec.LaterSource()})
		}
	}
	return out
}
