package grade

import "math"

// Class is a step of a grading scheme.
type Class int

// The classes. Moderate covers both moderate steps (vena contracta does not divide them); NotSevere belongs to the
// two-step schemes.
const (
	NotGiven Class = iota
	None
	Mild
	Moderate
	ModerateLower
	ModerateUpper
	Severe
	NotSevere
)

var classNames = [...]string{"not given", "none or trace", "mild", "moderate", "moderate (lower)", "moderate (upper)", "severe", "not severe"}

// String returns the class in words.
func (c Class) String() string { return classNames[c] }

// steps is the range of a class on one ladder, so that classes of different fineness can be compared.
func (c Class) steps() (low, high int) {
	switch c {
	case None:
		return 0, 0
	case Mild:
		return 1, 1
	case Moderate:
		return 2, 3
	case ModerateLower:
		return 2, 2
	case ModerateUpper:
		return 3, 3
	case Severe:
		return 4, 4
	case NotSevere:
		return 0, 3
	}
	return 0, 4
}

// Unknown returns NaN, the mark of a measure that is not available.
func Unknown() float64 { return math.NaN() }

// Interval is a value with the range its models disagree over; Value NaN means not measured.
type Interval struct{ Value, Low, High float64 }

// Exactly is an interval without width.
func Exactly(v float64) Interval { return Interval{v, v, v} }

// Criterion is one measure against one rule.
type Criterion struct {
	Name      string
	Value     float64
	Low, High float64 // interval of the value, equal to it when exact
	Unit      string
	Class     Class // NotGiven when not measured, or when the interval spans classes
	Rule      string
	Source    string
	Counted   bool // counts for the overall class; supporting signs do not
	Spans     bool // the interval spans classes
}

// rung is one class boundary: the class holds from From upwards.
type rung struct {
	from  float64
	class Class
}

// ladder is one criterion of a scheme; rungs rise, the first from −∞.
type ladder struct {
	name, unit, rule, source string
	rungs                    []rung
	supporting               bool
}

func (l ladder) class(v float64) Class {
	c := NotGiven
	for _, r := range l.rungs {
		if v >= r.from {
			c = r.class
		}
	}
	return c
}

func (l ladder) judge(v Interval) Criterion {
	c := Criterion{Name: l.name, Value: v.Value, Low: v.Low, High: v.High, Unit: l.unit, Rule: l.rule, Source: l.source}
	if math.IsNaN(v.Value) {
		return c
	}
	if low, high := l.class(v.Low), l.class(v.High); low != high {
		c.Spans = true
		return c
	}
	c.Class = l.class(v.Value)
	c.Counted = !l.supporting && c.Class != NotGiven
	return c
}
