package study

import (
	"math"
	"strconv"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// Knob is one number that can be turned.
type Knob struct {
	ID                    string
	Unit                  string
	Value, Min, Max, Step float64
	Start                 float64 // its value in the case as it was opened; NaN where it had none
	Decimals              int
	On                    bool   // false: the repair it belongs to is not placed
	Text                  string // its meaning in English, from the table
	Source                string
	TableKey              string // key of the meaning's translation
}

// groups are several numbers moved together: the first one is shown.
var groups = map[string][]string{
	"elevation": {"sinus.elevation.middle_mm", "sinus.elevation.mouth_mm", "sinus.elevation.distal_mm"},
	"distance":  {"sinus.distance.middle_mm", "sinus.distance.mouth_mm", "sinus.distance.distal_mm"},
}

// Decimals returns how many decimals a step needs.
func Decimals(step float64) int {
	for d := 0; d < 3; d++ {
		if k := step * math.Pow(10, float64(d)); math.Abs(k-math.Round(k)) < 1e-9 {
			return d
		}
	}
	return 3
}

// Knob returns the knob with that id.
func (s *Study) Knob(id string) (Knob, bool) {
	kind, rest, _ := strings.Cut(id, "/")
	switch kind {
	case "anatomy":
		return s.patientKnob(id, rest)
	case "group":
		if paths := groups[rest]; paths != nil {
			return s.patientKnob(id, paths[0])
		}
	case "repair":
		ref, key, _ := strings.Cut(rest, "/")
		return s.repairKnob(id, ref, key)
	}
	return Knob{}, false
}

func (s *Study) patientKnob(id, path string) (Knob, bool) {
	q, ok := anatomy.Find(path)
	if !ok {
		return Knob{}, false
	}
	return Knob{ID: id, Unit: q.Unit, Value: *q.At(&s.Case.Patient), Min: q.Min, Max: q.Max, Step: q.Step, Start: *q.At(&s.start.Patient),
		Decimals: Decimals(q.Step), On: true, Text: q.Meaning, Source: q.Source, TableKey: "parameter." + path}, true
}

func (s *Study) repairKnob(id, ref, key string) (Knob, bool) {
	kind, i, placed := locate(s.Case, ref)
	spec, ok := repair.Find(kind)
	if !ok {
		return Knob{}, false
	}
	for _, p := range spec.Parameters {
		if p.Key != key {
			continue
		}
		k := Knob{ID: id, Unit: p.Unit, Min: p.Min, Max: p.Max, Step: p.Step, Value: p.Default, Start: math.NaN(), Decimals: Decimals(p.Step),
			On: placed, Text: p.Meaning, Source: spec.Source, TableKey: "repair." + string(kind) + "." + key}
		if placed {
			k.Value = s.Case.Repairs[i].Value(key)
		} else if st, err := defaults(s.Case, kind); err == nil {
			k.Value = st.Value(key)
			if key == "shortening_mm" {
				k.Value = 0
			}
		}
		if key == "distal_mm" && k.Max > s.Case.Patient.Sinus.LengthMM {
			k.Max = s.Case.Patient.Sinus.LengthMM
		}
		if _, j, had := locate(s.start, ref); had {
			k.Start = s.start.Repairs[j].Value(key)
		}
		return k, true
	}
	return Knob{}, false
}

// Turn puts a knob to a value. Continued turns of one knob are one undo. A value that the case cannot take is refused
// with an error that says why; nothing is changed then.
func (s *Study) Turn(id string, v float64, continued bool) error {
	k, ok := s.Knob(id)
	if !ok {
		return &fault.Field{Path: id, Problem: "no such control"}
	}
	c := s.Case.Clone()
	kind, rest, _ := strings.Cut(id, "/")
	switch kind {
	case "anatomy":
		if err := c.Patient.Set(rest, v); err != nil {
			return err
		}
	case "group":
		if err := turnGroup(&c.Patient, groups[rest], v); err != nil {
			return err
		}
	case "repair":
		ref, key, _ := strings.Cut(rest, "/")
		rk, i, placed := locate(c, ref)
		if !placed {
			st, err := defaults(c, rk)
			if err != nil {
				return err
			}
			c.Repairs = append(c.Repairs, st)
			i = len(c.Repairs) - 1
		}
		if err := c.Repairs[i].Set(key, v); err != nil {
			return err
		}
	}
	return s.apply(c, Change{Deed: Turned, ID: id, From: k.Value, To: v}, continued)
}

// turnGroup moves every member by the same amount; a member at the end of its range stays there.
func turnGroup(p *anatomy.Patient, paths []string, v float64) error {
	first, _ := anatomy.Find(paths[0])
	d := v - *first.At(p)
	for i, path := range paths {
		q, _ := anatomy.Find(path)
		x := *q.At(p) + d
		if i > 0 {
			x = math.Min(math.Max(x, q.Min), q.Max)
		}
		if err := p.Set(path, x); err != nil {
			return err
		}
	}
	return nil
}

// locate finds the repair KIND or KIND#n.
func locate(c casefile.Case, ref string) (repair.Kind, int, bool) {
	name, number, _ := strings.Cut(ref, "#")
	n := 1
	if number != "" {
		n, _ = strconv.Atoi(number)
	}
	for i, r := range c.Repairs {
		if r.Kind == repair.Kind(name) {
			if n--; n == 0 {
				return repair.Kind(name), i, true
			}
		}
	}
	return repair.Kind(name), -1, false
}
