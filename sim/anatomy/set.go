package anatomy

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"annuloscope/sim/fault"
)

// Choice is a parameter whose value is one of a few words.
type Choice struct {
	Path    string
	Options []string
	Default string
	Meaning string
	Source  string
	At      func(*Patient) *string
}

// Choices lists the worded parameters.
func Choices() []Choice { return append([]Choice(nil), choices...) }

// choices is the table of Choices; nothing changes it.
var choices = []Choice{
	{"mechanism", []string{string(NoLeak), string(Functional), string(Degenerative)}, string(NoLeak),
		"Why the valve leaks", "common practice, no source",
		func(p *Patient) *string { return (*string)(&p.Mechanism) }},
	{"dominance", []string{string(RightDominant), string(LeftDominant), string(BalancedDominant)}, string(RightDominant),
		"Which coronary artery supplies the back of the heart", "S79: right 91 %",
		func(p *Patient) *string { return (*string)(&p.Dominance) }},
	{"sinus.distance_with_leak", []string{string(DistanceUnchanged), string(DistanceRaised)}, string(DistanceUnchanged),
		"Whether a leak raises the distance of the vein from the annulus (sources disagree)",
		"raised: S53, 14.2 to 16 mm; M11 from memory; unchanged: S68, no link in functional leak",
		func(p *Patient) *string { return (*string)(&p.LeakDistance) }},
	{"body.scaling", []string{string(AsStated), string(BySurface)}, string(AsStated),
		"Whether the annulus is as stated, or stated for 1.8 m² and scaled to this body",
		"S05: diameters and height per m²; S18: trigones by its logarithm; no source scales vein or artery",
		func(p *Patient) *string { return (*string)(&p.Scaling) }},
}

// Same tells whether every number and word of two patients is the same; two unstated measurements are.
func (p *Patient) Same(q *Patient) bool {
	if *p == *q {
		return true
	}
	for i := range parameters {
		if x, y := *parameters[i].At(p), *parameters[i].At(q); x != y && !(math.IsNaN(x) && math.IsNaN(y)) {
			return false
		}
	}
	for i := range choices {
		if *choices[i].At(p) != *choices[i].At(q) {
			return false
		}
	}
	return p.Imported == q.Imported
}

// Set puts a value at a path. The error names the path, the value, the allowed range and the nearest known path.
func (p *Patient) Set(path string, value float64) error {
	q, ok := Find(path)
	if !ok {
		return Unknown(path)
	}
	if err := q.Check(value); err != nil {
		return err
	}
	*q.At(p) = value
	return nil
}

// SetChoice puts a word at a path.
func (p *Patient) SetChoice(path, word string) error {
	for _, c := range choices {
		if c.Path != path {
			continue
		}
		for _, o := range c.Options {
			if o == word {
				*c.At(p) = word
				return nil
			}
		}
		return &fault.Field{Path: path, Value: word, Problem: "not one of the choices", Allowed: strings.Join(c.Options, ", "),
			Fix: "choose one of them"}
	}
	return Unknown(path)
}

// IsChoice tells whether the path is a worded parameter.
func IsChoice(path string) bool {
	for _, c := range choices {
		if c.Path == path {
			return true
		}
	}
	return false
}

// Check tells whether the value is allowed.
func (q Parameter) Check(value float64) error {
	if math.IsNaN(value) || math.IsInf(value, 0) || value < q.Min || value > q.Max {
		problem := "out of range"
		if math.IsNaN(value) || math.IsInf(value, 0) {
			problem = "not a number"
		}
		return &fault.Field{Path: q.Path, Value: fmt.Sprint(value), Problem: problem, Allowed: q.Range(),
			Fix: "give a number in that range"}
	}
	return nil
}

// Range words the allowed range with its unit.
func (q Parameter) Range() string {
	unit := q.Unit
	if unit == "1" {
		unit = "(no unit)"
	}
	return fmt.Sprintf("%g to %g %s", q.Min, q.Max, unit)
}

// Unknown is the error for a path that names no parameter; it suggests the nearest one.
func Unknown(path string) error {
	names := make([]string, 0, len(parameters)+2)
	for _, q := range parameters {
		names = append(names, q.Path)
		for i, r := range q.Path {
			if r == '.' {
				names = append(names, q.Path[:i]) // the section's own name
			}
		}
	}
	for _, c := range choices {
		names = append(names, c.Path)
	}
	return &fault.Field{Path: path, Problem: "no such parameter", Allowed: "the paths listed by `annuloscope parameters`",
		Fix: "did you mean " + Nearest(path, names) + "?"}
}

// Nearest returns the name with the smallest edit distance to s; ties go to the alphabetically first.
func Nearest(s string, names []string) string {
	sorted := append([]string(nil), names...)
	sort.Strings(sorted)
	best, least := "", math.MaxInt
	if len(s) > 80 {
		s = s[:80]
	}
	for _, n := range sorted {
		if d := distance(s, n); d < least {
			best, least = n, d
		}
	}
	return best
}

// distance is the Levenshtein edit distance in bytes.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := diagonal
			if a[i-1] != b[j-1] {
				cost++
			}
			diagonal = row[j]
			row[j] = min(cost, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}

// Validate checks every range and what no single range can say: measurements stated together, stretches in order.
func (p *Patient) Validate() error {
	for _, q := range parameters {
		v := *q.At(p)
		if math.IsNaN(v) && math.IsNaN(q.Default) {
			continue
		}
		if err := q.Check(v); err != nil {
			return err
		}
	}
	for _, c := range choices {
		if err := (&Patient{}).SetChoice(c.Path, *c.At(p)); err != nil {
			return err
		}
	}
	return p.consistent()
}

func (p *Patient) consistent() error {
	m := p.Measured
	if a, b, c := math.IsNaN(m.DepthMM), math.IsNaN(m.ContactMM), math.IsNaN(m.EffectiveOrificeCM2); a != b || b != c {
		return &fault.Field{Path: "measured", Problem: "depth_mm, contact_mm and effective_orifice_cm2 belong together",
			Allowed: "all three, or none", Fix: "state the missing ones or remove the others"}
	}
	for _, r := range []struct {
		what, low, high string
		from, to, least float64
	}{
		{"sinus.cover_to_mm", "sinus.cover_from_mm", "sinus.length_mm", p.Sinus.CoverFromMM, p.Sinus.CoverToMM, 20},
		{"artery.deep_to_mm", "artery.deep_from_mm", "", p.Artery.DeepFromMM, p.Artery.DeepToMM, 0},
		{"leaflet.calcified_to", "leaflet.calcified_from", "", p.Leaflet.CalcifiedFrom, p.Leaflet.CalcifiedTo, 0},
	} {
		if r.to-r.from < r.least {
			return &fault.Field{Path: r.what, Value: fmt.Sprint(r.to), Problem: "too close to " + r.low,
				Allowed: fmt.Sprintf("at least %g more than %s (%g)", r.least, r.low, r.from), Fix: "raise it or lower the other"}
		}
	}
	if p.Sinus.CoverToMM > p.Sinus.LengthMM {
		return &fault.Field{Path: "sinus.cover_to_mm", Value: fmt.Sprint(p.Sinus.CoverToMM), Problem: "beyond the end of the vein",
			Allowed: fmt.Sprintf("at most sinus.length_mm (%g mm)", p.Sinus.LengthMM), Fix: "lower it or lengthen the vein"}
	}
	if r := p.Annulus.SeptalLateralMM / p.Annulus.CommissuralMM; r < 0.5 || r > 1.15 {
		return &fault.Field{Path: "annulus.septal_lateral_mm", Value: fmt.Sprint(p.Annulus.SeptalLateralMM),
			Problem: "does not go with annulus.commissural_mm", Allowed: fmt.Sprintf("0.5 to 1.15 times the commissural diameter (%g mm)",
				p.Annulus.CommissuralMM), Fix: "change one of the two"}
	}
	if m.Stated() && m.DepthMM+m.ContactMM > p.Annulus.SeptalLateralMM {
		return &fault.Field{Path: "measured.depth_mm", Value: fmt.Sprint(m.DepthMM), Problem: "depth and contact together exceed the septal-lateral diameter",
			Allowed: fmt.Sprintf("depth + contact at most %g mm", p.Annulus.SeptalLateralMM), Fix: "check the measurements"}
	}
	if p.Heart.EndSystolicML >= p.Heart.EndDiastolicML-10 {
		return &fault.Field{Path: "heart.end_systolic_ml", Value: fmt.Sprint(p.Heart.EndSystolicML), Problem: "too close to heart.end_diastolic_ml",
			Allowed: fmt.Sprintf("at most %g mL", p.Heart.EndDiastolicML-10), Fix: "lower it or raise the other"}
	}
	return nil
}
