package repair

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"annuloscope/sim/fault"
)

// Step is one repair with its numbers, in the order of its Spec's parameters.
type Step struct {
	Kind   Kind
	Values []float64
}

// New returns a step with its documented defaults.
func New(k Kind) (Step, error) {
	spec, ok := Find(k)
	if !ok {
		return Step{}, &fault.Field{Path: "repair", Value: string(k), Problem: "no such repair",
			Allowed: strings.Join(names(), ", "), Fix: "did you mean " + nearest(string(k), names()) + "?"}
	}
	s := Step{Kind: k, Values: make([]float64, len(spec.Parameters))}
	for i, p := range spec.Parameters {
		s.Values[i] = p.Default
	}
	return s, nil
}

// Must is New for kinds known when the program is written; it panics on an unknown one.
func Must(k Kind) Step {
	s, err := New(k)
	if err != nil {
		panic("repair: " + err.Error())
	}
	return s
}

// Value returns the number with that key; it panics on a key the kind does not have.
func (s Step) Value(key string) float64 { return s.Values[s.index(key)] }

// With returns a copy with one number changed and not checked; it panics on a key the kind does not have.
func (s Step) With(key string, value float64) Step {
	c := s.Clone()
	c.Values[c.index(key)] = value
	return c
}

// Clone returns an independent copy.
func (s Step) Clone() Step { return Step{s.Kind, append([]float64(nil), s.Values...)} }

func (s Step) index(key string) int {
	spec, _ := Find(s.Kind)
	for i, p := range spec.Parameters {
		if p.Key == key {
			return i
		}
	}
	panic(fmt.Sprintf("repair: %s has no parameter %q", s.Kind, key))
}

// Set puts a checked value at a key. The error names field, value, range and fix.
func (s *Step) Set(key string, value float64) error {
	spec, _ := Find(s.Kind)
	var keys []string
	for i, p := range spec.Parameters {
		if p.Key == key {
			if err := p.check(s.Kind, value); err != nil {
				return err
			}
			s.Values[i] = value
			return nil
		}
		keys = append(keys, p.Key)
	}
	return &fault.Field{Path: string(s.Kind) + "." + key, Problem: "no such parameter", Allowed: strings.Join(keys, ", "),
		Fix: "did you mean " + nearest(key, keys) + "?"}
}

// Whole tells whether only whole numbers are allowed: counts and yes-or-no.
func (p Parameter) Whole() bool { return p.Step >= 1 && p.Max-p.Min <= 3 && p.Unit == "1" }

func (p Parameter) check(k Kind, v float64) error {
	problem := ""
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		problem = "not a number"
	case v < p.Min || v > p.Max:
		problem = "out of range"
	case p.Whole() && v != math.Trunc(v):
		problem = "not a whole number"
	default:
		return nil
	}
	return &fault.Field{Path: string(k) + "." + p.Key, Value: fmt.Sprint(v), Problem: problem,
		Allowed: fmt.Sprintf("%g to %g %s", p.Min, p.Max, p.Unit), Fix: "give a number in that range"}
}

// Parse reads a step written as kind,key=value,key=value, as on the command line.
func Parse(text string) (Step, error) {
	parts := strings.Split(text, ",")
	s, err := New(Kind(strings.TrimSpace(parts[0])))
	if err != nil {
		return Step{}, err
	}
	for _, part := range parts[1:] {
		key, value, ok := strings.Cut(part, "=")
		key = strings.TrimSpace(key)
		if !ok {
			return Step{}, &fault.Field{Path: string(s.Kind), Value: part, Problem: "not of the form key=value",
				Allowed: "kind,key=value,key=value", Fix: "write for example shortening_mm=20"}
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
		if err != nil {
			return Step{}, &fault.Field{Path: string(s.Kind) + "." + key, Value: value, Problem: "not a number",
				Allowed: "a plain number, its unit is in the name", Fix: "write digits with a point, no unit"}
		}
		if err := s.Set(key, v); err != nil {
			return Step{}, err
		}
	}
	return s, nil
}

// String writes a step as Parse reads it, with every parameter.
func (s Step) String() string {
	spec, _ := Find(s.Kind)
	var b strings.Builder
	b.WriteString(string(s.Kind))
	for i, p := range spec.Parameters {
		fmt.Fprintf(&b, ",%s=%s", p.Key, strconv.FormatFloat(s.Values[i], 'g', -1, 64))
	}
	return b.String()
}

// Validate checks every number and what no single range can say.
func (s Step) Validate() error {
	spec, ok := Find(s.Kind)
	if !ok || len(s.Values) != len(spec.Parameters) {
		_, err := New(s.Kind)
		if err == nil {
			err = &fault.Field{Path: string(s.Kind), Problem: "wrong number of values", Fix: "use New"}
		}
		return err
	}
	for i, p := range spec.Parameters {
		if err := p.check(s.Kind, s.Values[i]); err != nil {
			return err
		}
	}
	if s.Kind == SinusBand || s.Kind == SinusRods {
		if a, b := s.Value("proximal_mm"), s.Value("distal_mm"); b-a < 15 {
			return &fault.Field{Path: string(s.Kind) + ".distal_mm", Value: fmt.Sprint(b), Problem: "the anchors cross or lie too close",
				Allowed: fmt.Sprintf("at least 15 mm beyond proximal_mm (%g mm)", a), Fix: "raise distal_mm or lower proximal_mm"}
		}
	}
	return nil
}

// ValidateAll checks an ordered list of steps: each step, at most three clips and stitches, and one of each other kind.
func ValidateAll(steps []Step) error {
	if len(steps) > 12 {
		return &fault.Field{Path: "repairs", Value: fmt.Sprint(len(steps)), Problem: "too many steps", Allowed: "at most 12", Fix: "remove some"}
	}
	bonds, seen := 0, map[Kind]bool{}
	for _, s := range steps {
		if err := s.Validate(); err != nil {
			return err
		}
		if s.Kind == EdgeClip || s.Kind == EdgeStitch {
			if bonds++; bonds > 3 {
				return &fault.Field{Path: "repairs", Value: fmt.Sprint(bonds), Problem: "too many clips and stitches", Allowed: "0 to 3", Fix: "remove some"}
			}
			continue
		}
		if seen[s.Kind] {
			return &fault.Field{Path: "repairs", Value: string(s.Kind), Problem: "the same repair twice", Allowed: "one " + string(s.Kind), Fix: "change the first one instead"}
		}
		seen[s.Kind] = true
	}
	return nil
}
