package compareview

import (
	"strconv"
	"strings"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// View is the scene. Use New.
type View struct {
	d      *desk.Desk
	c      *study.Comparison
	models [study.MostPlans + 1]relief.Model
	first  int  // the plan shown first where not all have room
	all    bool // every number, not only the main ones
	bare   bool // a figure: no buttons
	field  field
	seen   uint64
	drawn  string // map for which the field was made

	sentence     string
	sentenceSeen uint64
	sentenceIn   string
}

// New returns the scene; the plans are solved by a runner of its own, which must answer with the closed loop.
func New(d *desk.Desk, r study.Runner) *View {
	return &View{d: d, c: study.NewComparison(r), seen: ^uint64(0), sentenceSeen: ^uint64(0)}
}

// Columns gives tests and figures the comparison.
func (v *View) Columns() *study.Comparison { return v.c }

// Tick goes on with the plans and tells whether something changed. While the present valve is computed it waits.
func (v *View) Tick() bool {
	if v.d.S.Updating() {
		return false
	}
	v.c.SetShell(v.d.V.Engine == valve.ShellEngine)
	return v.c.Follow(v.d.S.Case, v.d.S.Plans())
}

// load brings models and map up to date.
func (v *View) load() {
	if v.seen != v.c.Version {
		for i := range v.c.Columns {
			if k := &v.c.Columns[i]; k.Solved {
				v.models[i].Load(k.Report.Scene.After, k.Report.After.Clips)
			} else {
				v.models[i].Load(valve.Shapes{}, nil)
			}
		}
	}
	if v.seen != v.c.Version || v.drawn != v.d.V.Map {
		v.seen, v.drawn = v.c.Version, v.d.V.Map
		v.makeField()
	}
}

// Sentence says what differs and why.
func (v *View) Sentence() string {
	if lang := string(v.d.W().Lang); v.sentenceSeen != v.c.Version || v.sentenceIn != lang {
		v.sentenceSeen, v.sentenceIn = v.c.Version, lang
		v.sentence = tell.Comparison(v.d.W(), v.c.Base(), tell.Solved(v.c))
	}
	return v.sentence
}

// Describe tells the scene in words: each plan, its leak, gradient and artery, then what differs.
func (v *View) Describe() string {
	w := v.d.W()
	var parts []string
	for i := range v.c.Columns {
		k := &v.c.Columns[i]
		if !k.Solved {
			continue
		}
		s := &k.Report.After
		parts = append(parts, w.F("compare.tell", "name", v.name(i), "repairs", tell.Repairs(w, k.Plan.Repairs),
			"eroa", w.With(float64(s.Regurgitation.EffectiveOrificeCM2), 2, "cm²"), "sl", w.With(s.Annulus.SeptalLateralMM, 1, "mm"),
			"grad", w.With(s.Opening.MeanGradientMMHg, 1, "mmHg"), "pct", w.With(s.Artery.WorstViewNarrowing, 0, "%")))
	}
	return strings.Join(append(parts, v.Sentence()), " ")
}

func (v *View) name(i int) string {
	if i == 0 {
		return v.d.W().T("compare.untreated")
	}
	return v.c.Columns[i].Plan.Name
}

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	if rest, ok := strings.CutPrefix(a.ID, "picture/"); ok && rest != "" { // all pictures turn together
		a.ID = "picture"
		return v.d.ApplyView(a)
	}
	rest, ok := strings.CutPrefix(a.ID, "compare/")
	if !ok {
		return false
	}
	what, number, _ := strings.Cut(rest, "/")
	i, _ := strconv.Atoi(number)
	plans := v.d.S.Plans()
	if number != "" && (i < 0 || i >= len(plans)) {
		return true // a plan that is gone
	}
	s, w := v.d.S, v.d.W()
	switch what {
	case "show":
		v.d.V.Map = shows[v.choices()[a.Index]].name
	case "first":
		v.first = a.Index
	case "all":
		v.all = a.Value > 0
	case "add":
		v.d.Refuse(s.AddPlan(study.Plan{Name: v.freeName(), Repairs: s.Case.Repairs}))
	case "suggest":
		v.suggest()
	case "name":
		p := plans[i]
		p.Name = a.Text
		v.d.Refuse(s.ChangePlan(i, p))
	case "edit":
		if err := s.Take(plans[i]); err != nil {
			v.d.Refuse(err)
			break
		}
		v.d.Goto = "valve"
		v.d.Say(w.F("compare.editing", "name", plans[i].Name), false)
	case "update":
		p := plans[i]
		p.Repairs = s.Case.Repairs
		v.d.Refuse(s.ChangePlan(i, p))
	case "remove":
		s.RemovePlan(i)
		v.first = 0
	default:
		return false
	}
	return true
}

// suggest adds the built-in comparisons while there is room.
func (v *View) suggest() {
	w := v.d.W()
	for _, p := range study.Suggested(v.d.S.Case, func(kinds ...repair.Kind) string { return tell.PlanName(w, kinds...) }) {
		if len(v.d.S.Plans()) < study.MostPlans && !v.taken(p.Name) {
			v.d.Refuse(v.d.S.AddPlan(p))
		}
	}
}

func (v *View) taken(name string) bool {
	for _, p := range v.d.S.Plans() {
		if p.Name == name {
			return true
		}
	}
	return false
}

// freeName is "Plan A", "Plan B" and so on: the first that is free.
func (v *View) freeName() string {
	for c := 'A'; ; c++ {
		if name := v.d.W().F("compare.plan", "letter", string(c)); !v.taken(name) {
			return name
		}
	}
}
