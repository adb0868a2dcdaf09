package study

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// Plan is a named set of repairs, to be compared with others on the patient at hand.
type Plan struct {
	Name    string
	Repairs []repair.Step
}

// Limits of a comparison. The untreated valve is always its first column.
const (
	MostPlans    = 3  // beside the untreated valve
	MostPlanName = 32 // characters; chosen: two lines of a column's heading
)

// On returns the plan's repairs on a patient.
func (p Plan) On(c casefile.Case) casefile.Case {
	c = c.Clone()
	c.Repairs = nil
	for _, st := range p.Repairs {
		c.Repairs = append(c.Repairs, st.Clone())
	}
	return c
}

// Check tells why a plan cannot be kept: no name, a name that is too long, or repairs that no patient could have. Whether
// they fit the patient at hand is told by its Case's Validate.
func (p Plan) Check() error {
	if n := utf8.RuneCountInString(strings.TrimSpace(p.Name)); n == 0 || n > MostPlanName {
		return &fault.Field{Path: "plan", Value: p.Name, Problem: "a plan's name is missing or too long",
			Allowed: fmt.Sprintf("1 to %d characters", MostPlanName), Fix: "give it a short name"}
	}
	return repair.ValidateAll(p.Repairs)
}

// ParsePlan reads a plan as a command or a file writes it: name: step; step, each step as repair.Parse reads it. No step
// is a plan that does nothing.
func ParsePlan(text string) (Plan, error) {
	at := strings.LastIndexByte(text, ':') // a name may hold colons, repairs never do
	if at < 0 {
		return Plan{}, &fault.Field{Path: "plan", Value: text, Problem: "no colon between the plan's name and its repairs",
			Allowed: "name: kind,key=value; kind,key=value", Fix: `write for example "both: sinus-band,shortening_mm=20; edge-clip"`}
	}
	p, steps := Plan{Name: strings.TrimSpace(text[:at])}, text[at+1:]
	for _, s := range strings.Split(steps, ";") {
		if s = strings.TrimSpace(s); s == "" {
			continue
		}
		st, err := repair.Parse(s)
		if err != nil {
			return p, err
		}
		p.Repairs = append(p.Repairs, st)
	}
	return p, p.Check()
}

// String writes a plan as ParsePlan reads it.
func (p Plan) String() string {
	var steps []string
	for _, st := range p.Repairs {
		steps = append(steps, st.String())
	}
	return p.Name + ": " + strings.Join(steps, "; ")
}

// Plans are those kept for comparison. Read only.
func (s *Study) Plans() []Plan { return s.plans }

// SetPlans replaces all plans; those beyond MostPlans are left out.
func (s *Study) SetPlans(all []Plan) {
	s.plans = nil
	for _, p := range all[:min(len(all), MostPlans)] {
		s.plans = append(s.plans, p.clone())
	}
	s.touch()
}

func (p Plan) clone() Plan {
	c := Plan{Name: p.Name}
	for _, st := range p.Repairs {
		c.Repairs = append(c.Repairs, st.Clone())
	}
	return c
}

// AddPlan keeps one more plan, or tells why it cannot.
func (s *Study) AddPlan(p Plan) error {
	if len(s.plans) >= MostPlans {
		return &fault.Field{Path: "plan", Value: p.Name, Problem: "the comparison is full", Allowed: fmt.Sprintf("%d plans beside the untreated valve", MostPlans),
			Fix: "take one away first"}
	}
	if err := p.Check(); err != nil {
		return err
	}
	s.plans = append(s.plans, p.clone())
	s.touch()
	return nil
}

// ChangePlan replaces the plan numbered i.
func (s *Study) ChangePlan(i int, p Plan) error {
	if i < 0 || i >= len(s.plans) {
		panic("study: no plan with that number")
	}
	if err := p.Check(); err != nil {
		return err
	}
	s.plans[i] = p.clone()
	s.touch()
	return nil
}

// RemovePlan takes the plan numbered i away.
func (s *Study) RemovePlan(i int) {
	if i < 0 || i >= len(s.plans) {
		panic("study: no plan with that number")
	}
	s.plans = append(s.plans[:i:i], s.plans[i+1:]...)
	s.touch()
}

// Take makes a plan's repairs those of the case, as one change that can be undone.
func (s *Study) Take(p Plan) error { return s.apply(p.On(s.Case), Change{Deed: Opened}, false) }

// touch marks the document as changed.
func (s *Study) touch() {
	s.Version++
	s.touched = s.Version
}

// Suggested are the comparisons offered where nothing has been planned: the band alone, the clip alone, and both, each
// with the defaults that fit the patient. name words them by their repairs' kinds.
func Suggested(c casefile.Case, name func(kinds ...repair.Kind) string) []Plan {
	c = c.Clone()
	c.Repairs = nil
	var out []Plan
	for _, kinds := range [][]repair.Kind{{repair.SinusBand}, {repair.EdgeClip}, {repair.SinusBand, repair.EdgeClip}} {
		p := Plan{Name: name(kinds...)}
		for _, k := range kinds {
			if st, err := defaults(c, k); err == nil {
				p.Repairs = append(p.Repairs, st)
			}
		}
		out = append(out, p)
	}
	return out
}
