package cohortview

import (
	"math"
	"sort"

	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/widget"
	"annuloscope/sim/cohort"
	"annuloscope/sim/repair"
)

// View is the scene. Use New.
type View struct {
	d     *desk.Desk
	g     gather
	every int // ticks from one patient to the next
	ticks int

	group, size int // indices of groups and sizes
	seed        uint64
	axis        [2]int        // measures of x and y
	brush       [2][2]float64 // the ranges kept, NaN: as far as the axis goes
	span        [2][2]float64 // of the axes as drawn
	picked      int           // index of a patient, −1 for none
	tab         int

	dots    []dot // of the last picture
	version int   // rises with every change of patients or ranges
	all     *cohort.Summary
	some    *cohort.Summary
	counted int
	within  int
}

// dot is one patient in the scatter, in its logical pixels.
type dot struct {
	member int
	x, y   float64
}

var sizes = []int{50, 200, 1000}

// New returns the scene. Without a runner patients are solved between the pictures, with pauses, and there are few.
func New(d *desk.Desk, r study.Runner) *View {
	v := &View{d: d, every: 1, size: 1, seed: 1, picked: -1, axis: [2]int{find("elevation"), find("fall")}, counted: -1}
	if r == nil {
		const pause = 4 // ticks; leaves the page three quarters of its time; chosen
		r, v.every, v.size = study.NewSync(NewCold()), pause, 0
	}
	v.g.runner = r
	v.open()
	return v
}

// groups in the order of the choice; the first is all.
var groups = []string{"all", "normal", "functional", "degenerative"}

// plan is what is done to whom: the repairs on the desk, or a sinus band as long as there are none.
func (v *View) plan() (p cohort.Plan, own bool) {
	p = cohort.Plan{Seed: v.seed, Mix: cohort.EqualMix(), Repairs: v.d.S.Case.Repairs}
	if v.group > 0 {
		p.Mix = cohort.Only(cohort.Group(v.group - 1))
	}
	if own = len(p.Repairs) > 0; !own {
		p.Repairs = []repair.Step{repair.Must(repair.SinusBand)}
	}
	return p, own
}

// Tick goes on with the cohort and tells whether it changed. While the desk's own valve is computed it waits.
func (v *View) Tick() bool {
	if v.d.S.Updating() {
		return false
	}
	if v.ticks++; v.ticks < 0 || v.ticks%v.every != 0 {
		return false
	}
	p, _ := v.plan()
	if !v.g.follow(p, sizes[v.size]) {
		return false
	}
	v.version++
	if v.picked >= len(v.g.members) {
		v.picked = -1
	}
	return true
}

// Patients is how many are there so far.
func (v *View) Patients() int { return len(v.g.members) }

// open makes both ranges whole again.
func (v *View) open() {
	n := math.NaN()
	v.brush = [2][2]float64{{n, n}, {n, n}}
	v.version++
}

// kept tells whether a patient lies within both ranges.
func (v *View) kept(m *cohort.Member) bool {
	for k, b := range v.brush {
		x := measures[v.axis[k]].value(m)
		if !math.IsNaN(b[0]) && !(x >= b[0]) || !math.IsNaN(b[1]) && !(x <= b[1]) {
			return false
		}
	}
	return true
}

// count sums up; while patients arrive, now and then only.
func (v *View) count() {
	n := len(v.g.members)
	if v.counted == v.version || v.all != nil && n > 40 && n < sizes[v.size] && n-v.all.N < n/20 && n >= v.all.N && !v.moved() {
		return
	}
	v.counted = v.version
	p, _ := v.plan()
	v.all, v.some, v.within = cohort.NewSummary(p), cohort.NewSummary(p), 0
	for i := range v.g.members[:n] {
		m := &v.g.members[i]
		v.all.Add(m)
		if v.kept(m) {
			v.some.Add(m)
			v.within++
		}
	}
}

// moved tells whether a range is narrowed: then every change counts at once.
func (v *View) moved() bool {
	for _, b := range v.brush {
		if !math.IsNaN(b[0]) || !math.IsNaN(b[1]) {
			return true
		}
	}
	return false
}

const calm = 20 // ticks after an action in which no patient is solved between the pictures; chosen

// Apply does what an action asks for and tells whether it was the scene's own.
func (v *View) Apply(a widget.Action) bool {
	if v.every > 1 {
		v.ticks = -calm
	}
	switch a.ID {
	case "cohort/tab":
		v.tab = a.Index
	case "cohort/group":
		v.group, v.picked = a.Index, -1
		v.open()
	case "cohort/size":
		v.size = a.Index
		v.version++
	case "cohort/x", "cohort/y":
		v.axis[map[string]int{"cohort/x": 0, "cohort/y": 1}[a.ID]] = a.Index
		v.open()
	case "cohort/other":
		v.seed++
		v.picked = -1
	case "cohort/whole":
		v.open()
	case "cohort/next":
		v.step(1, 0)
	case "cohort/back":
		v.step(-1, 0)
	case "cohort/open":
		v.openPicked()
	case "cohort/scatter":
		switch a.Verb {
		case widget.Picked:
			v.pick(a.DX, a.DY)
		case widget.Keyed:
			v.key(a.Key)
		}
	case "cohort/x/low", "cohort/x/high", "cohort/y/low", "cohort/y/high":
		if a.Verb == widget.Changed {
			v.narrow(a.ID, a.Value)
		}
	default:
		return false
	}
	return true
}

// narrow moves one end of a range; it stops at the other end, and at the axis' end the range is open again.
func (v *View) narrow(id string, x float64) {
	k := map[byte]int{'x': 0, 'y': 1}[id[len("cohort/")]]
	b, s := &v.brush[k], v.span[k]
	if id[len("cohort/x/"):] == "low" {
		if b[0] = x; x <= s[0] {
			b[0] = math.NaN()
		} else if x > b[1] {
			b[0] = b[1]
		}
	} else if b[1] = x; x >= s[1] {
		b[1] = math.NaN()
	} else if x < b[0] {
		b[1] = b[0]
	}
	v.version++
}

const nearest = 24.0 // logical pixels from a dot within which a press picks it; chosen

func (v *View) pick(x, y float64) {
	best := nearest * v.d.U.Scale
	v.picked = -1
	for _, p := range v.dots {
		if d := math.Hypot(p.x-x, p.y-y); d < best {
			best, v.picked = d, p.member
		}
	}
}

func (v *View) key(k input.Key) {
	switch k {
	case input.Right:
		v.step(1, 0)
	case input.Left:
		v.step(-1, 0)
	case input.Up:
		v.step(1, 1)
	case input.Down:
		v.step(-1, 1)
	case input.Home:
		v.picked = -1
		v.step(1, 0)
	}
}

// step picks the next patient within the ranges along an axis.
func (v *View) step(by, axis int) {
	var order []int
	k := &measures[v.axis[axis]]
	for _, d := range v.dots {
		if v.kept(&v.g.members[d.member]) {
			order = append(order, d.member)
		}
	}
	if len(order) == 0 {
		v.picked = -1
		return
	}
	sort.SliceStable(order, func(a, b int) bool { return k.value(&v.g.members[order[a]]) < k.value(&v.g.members[order[b]]) })
	at := -1
	for i, m := range order {
		if m == v.picked {
			at = i
		}
	}
	switch {
	case at < 0 && by > 0:
		at = 0
	case at < 0:
		at = len(order) - 1
	default:
		at = min(max(at+by, 0), len(order)-1)
	}
	v.picked = order[at]
}

// openPicked opens the picked patient in the first scene.
func (v *View) openPicked() {
	if v.picked < 0 || v.picked >= len(v.g.members) {
		return
	}
	m := &v.g.members[v.picked]
	c := m.Case.Clone()
	if !m.Solved {
		c.Repairs = nil // they have no place in this patient
	}
	w := v.d.W()
	c.Title, c.Note = w.F("cohort.patient", "n", m.Index+1), w.T("cohort.note")
	if err := v.d.S.Open(c); err != nil {
		v.d.Refuse(err)
		return
	}
	v.d.Goto = "valve"
}

// Members are the patients so far, in the order of their index; read only.
func (v *View) Members() []cohort.Member { return v.g.members }

// Picked is the index of the picked patient, −1 for none.
func (v *View) Picked() int { return v.picked }

// Place is where a patient's mark is in the last picture of the chart, from the chart's corner in logical pixels.
func (v *View) Place(member int) (x, y float64, ok bool) {
	for _, d := range v.dots {
		if d.member == member {
			return d.x, d.y, true
		}
	}
	return 0, 0, false
}
