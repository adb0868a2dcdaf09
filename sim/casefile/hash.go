package casefile

import (
	"crypto/sha256"
	"encoding/hex"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
)

// Hash returns the SHA-256, in hexadecimal, of the case with every number written out; words do not count.
func Hash(c Case) string { return Identify(c.Patient).Hash(c.Repairs) }

// Identity is a patient as its cases' hashes count it, so that a repair being changed does not write the patient out again.
type Identity struct{ text []byte }

// Identify writes a patient out.
func Identify(p anatomy.Patient) Identity { return Identity{encode(Case{Patient: p}, true)} }

// Hash is Hash of the case of this patient with these repairs.
func (i Identity) Hash(steps []repair.Step) string {
	h := sha256.New()
	h.Write(i.text)
	if len(steps) > 0 {
		h.Write(repairsText(make([]byte, 0, 1024), steps))
	}
	var sum [sha256.Size]byte
	return hex.EncodeToString(h.Sum(sum[:0]))
}

// repairsText writes the repairs as encode does.
func repairsText(b []byte, steps []repair.Step) []byte {
	b = append(b, "repairs:\n"...)
	for _, s := range steps {
		spec, _ := repair.Find(s.Kind)
		b = append(append(append(b, "  - kind: "...), s.Kind...), '\n')
		for i, p := range spec.Parameters {
			b = append(append(append(b, "    "...), p.Key...), ": "...)
			b = append(append(b, number64(s.Values[i])...), '\n')
		}
	}
	return b
}
