package study_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"sort"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Limits of the slider study. All chosen.
const (
	halvings  = 10 // how often a steep step is halved: a jump is what remains over 1/1024 of it
	restMoves = 60 // moves until another patient is opened, so that not everything ends at an end of its range
)

// watched are the numbers that must not jump: a change by one step of a slider above steep is looked into, and what
// remains of it after the halvings is a jump when it is above least. Chosen: steep is somewhat more than what the
// steepest sliders do (half a millimetre of diameter per half millimetre of diameter).
var watched = []struct {
	path         string
	steep, least float64
}{
	{"annulus.septal_lateral_mm", 0.6, 0.2},
	{"regurgitation.effective_orifice_cm2", 0.1, 0.05},
}

// numbers reads the watched quantities after treatment.
func numbers(r *valve.Report) (out [2]float64) {
	for i, w := range watched {
		q, ok := valve.FindQuantity(w.path)
		if !ok {
			panic("study: no quantity " + w.path)
		}
		out[i] = q.Of(&r.After)
	}
	return out
}

// quick is the geometry tier of the program: no closed loop follows.
type quick struct{ s *study.Solver }

func (q quick) Solve(c casefile.Case) (valve.Report, error) { return q.s.Solve(c) }

// tally counts what the random moves met.
type tally struct {
	moves, refused, failed, unconverged, looked int
	kinks                                       map[string]int // explained jumps by what explains them
	reasons                                     map[string]int // of failures
	bad                                         []string
}

func (t *tally) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d moves: %d refused, %d without an answer, %d not converged, %d steep steps looked into", t.moves, t.refused, t.failed, t.unconverged, t.looked)
	for _, m := range []map[string]int{t.kinks, t.reasons} {
		var keys []string
		for k := range m {
			keys = append(keys, k)
		}
		sort.Strings(keys)
		for _, k := range keys {
			fmt.Fprintf(&b, "\n  %6d %s", m[k], k)
		}
	}
	return b.String()
}

func (t *tally) report(format string, args ...any) {
	if len(t.bad) < 20 {
		t.bad = append(t.bad, fmt.Sprintf(format, args...))
	}
}

func patients(t *testing.T) []casefile.Case {
	var all []casefile.Case
	for _, n := range assets.CaseNames() {
		data, err := assets.Cases.ReadFile("cases/" + n + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		c, err := casefile.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, c)
	}
	return all
}

// knobs lists everything that can be turned.
func knobs() (ids []string, kinds []repair.Kind, whole map[string]bool) {
	whole = map[string]bool{}
	for _, p := range anatomy.Parameters() {
		ids = append(ids, "anatomy/"+p.Path)
		whole["anatomy/"+p.Path] = p.Unit == "1" && p.Min == 0 && p.Max == 1 && p.Step == 1
	}
	for _, k := range repair.Specs() {
		kinds = append(kinds, k.Kind)
		for _, p := range k.Parameters {
			id := "repair/" + string(k.Kind) + "/" + p.Key
			ids = append(ids, id)
			whole[id] = p.Whole()
		}
	}
	return ids, kinds, whole
}

// sliders makes n random moves with the seed.
func sliders(t *testing.T, n int, seed uint64) *tally {
	all := patients(t)
	ids, kinds, whole := knobs()
	r := rand.New(rand.NewPCG(seed, 1))
	out := &tally{kinks: map[string]int{}, reasons: map[string]int{}}
	var s *study.Study
	held := ids[0]
	for out.moves < n {
		if out.moves%restMoves == 0 {
			s = study.New(study.NewSync(quick{study.NewSolver()}), all[r.IntN(len(all))])
			s.Poll()
		}
		out.moves++
		before, answered := s.Case.Clone(), s.Failure == nil
		old := numbers(&s.Report)
		single := false
		var err error
		what := ""
		switch pick := r.Float64(); {
		case pick < 0.06:
			k := string(kinds[r.IntN(len(kinds))])
			what = "place " + k
			err = s.Place(k, !s.Placed(k))
		default:
			if r.Float64() < 0.4 {
				held = ids[r.IntN(len(ids))]
			}
			k, ok := s.Knob(held)
			if !ok {
				t.Fatalf("no knob %s", held)
			}
			v := k.Value + k.Step*float64(1-2*r.IntN(2))
			single = k.On && !whole[held] // a count or a yes-or-no may jump
			if r.Float64() < 0.15 || math.IsNaN(v) {
				v, single = k.Min+(k.Max-k.Min)*r.Float64(), false
			}
			v = math.Min(math.Max(math.Round(v/k.Step)*k.Step, k.Min), k.Max)
			what = fmt.Sprintf("%s %g to %g", held, k.Value, v)
			err = s.Turn(held, v, false)
		}
		var f *fault.Field
		if err != nil {
			if !errors.As(err, &f) {
				out.report("seed %d, move %d, %s: refused without naming the field: %v", seed, out.moves, what, err)
			}
			out.refused++
			continue
		}
		s.Poll()
		if s.Failure != nil {
			if !errors.As(s.Failure, &f) {
				out.report("seed %d, move %d, %s: %v", seed, out.moves, what, s.Failure)
			} else {
				out.reasons["no answer: "+f.Path+": "+f.Problem]++
			}
			out.failed++
			s.Undo()
			s.Poll()
			continue
		}
		if !s.Report.Provenance.Converged {
			out.unconverged++
			out.reasons["not converged: "+s.Report.Provenance.Status]++
			continue
		}
		if bad := infinite(&s.Report); bad != "" {
			out.report("seed %d, move %d, %s: %s\n%s", seed, out.moves, what, bad, casefile.Encode(s.Case))
		}
		now := numbers(&s.Report)
		for i, w := range watched {
			if !single || !answered || math.Abs(now[i]-old[i]) <= w.steep {
				continue
			}
			out.looked++
			why, size, err := jump(before, s.Case, i)
			switch {
			case errors.Is(err, errUnconverged):
				out.kinks["steep step across a place where the report says not-converged"]++
			case err != nil:
				out.report("seed %d, move %d, %s: within the step %v\nfrom\n%s", seed, out.moves, what, err, casefile.Encode(before))
			case size > w.least && why == "":
				out.report("seed %d, move %d, %s: %s jumps by %.3f and nothing says why\nfrom\n%s", seed, out.moves, what, w.path, size, casefile.Encode(before))
			case size > w.least:
				out.kinks["jump of "+w.path+" explained by "+why]++
			}
		}
	}
	return out
}

// infinite names a number of a report that is neither finite nor left out on purpose.
func infinite(r *valve.Report) string {
	for _, st := range []*valve.State{&r.Before, &r.After} {
		for _, q := range valve.Quantities() {
			if v := q.Of(st); math.IsInf(v, 0) {
				return q.Path + " is infinite"
			} else if math.IsNaN(v) && strings.HasPrefix(q.Path, "annulus.") {
				return q.Path + " is not a number"
			}
		}
	}
	if _, err := json.Marshal(r); err != nil { // JSON has no NaN and no infinity
		return err.Error()
	}
	return ""
}

// jump halves the step between two cases that differ in one number, each solved cold, and returns the change of a
// watched number that
// remains over the last interval, and what explains it: the findings and conditions that differ between its ends.
func jump(a, b casefile.Case, i int) (why string, size float64, err error) {
	lo, err := solveCold(a)
	if err != nil {
		return "", 0, err
	}
	hi, err := solveCold(b)
	if err != nil {
		return "", 0, err
	}
	for range halvings {
		m := middle(a, b)
		mid, err := solveCold(m)
		if err != nil {
			return "", 0, err
		}
		if math.Abs(numbers(mid)[i]-numbers(lo)[i]) > math.Abs(numbers(hi)[i]-numbers(mid)[i]) {
			b, hi = m, mid
		} else {
			a, lo = m, mid
		}
	}
	return strings.Join(differences(lo, hi), ", "), math.Abs(numbers(hi)[i] - numbers(lo)[i]), nil
}

var errUnconverged = errors.New("the cold solve does not converge")

func solveCold(c casefile.Case) (*valve.Report, error) {
	r, err := valve.Solve(c, valve.Options{})
	if err == nil && !r.Provenance.Converged {
		err = fmt.Errorf("%w: %s", errUnconverged, r.Provenance.Status)
	}
	return &r, err
}

// middle is the case between two that differ in one number.
func middle(a, b casefile.Case) casefile.Case {
	m := a.Clone()
	for _, p := range anatomy.Parameters() {
		if x, y := *p.At(&a.Patient), *p.At(&b.Patient); x != y {
			*p.At(&m.Patient) = (x + y) / 2
		}
	}
	for i := range m.Repairs {
		for j, x := range a.Repairs[i].Values {
			m.Repairs[i].Values[j] = (x + b.Repairs[i].Values[j]) / 2
		}
	}
	return m
}

// differences lists the findings that one report has and the other has not, and the clips whose condition differs.
func differences(a, b *valve.Report) []string {
	count := map[string]int{}
	name := func(f valve.Finding) string {
		if f.Code == "annulus-folds" { // it says how many folds: one more or less is a snap
			return f.Code + ": " + f.Text
		}
		return f.Code
	}
	for _, f := range a.Findings {
		count[name(f)]++
	}
	for _, f := range b.Findings {
		count[name(f)]--
	}
	var out []string
	for code, n := range count {
		if n != 0 {
			out = append(out, code)
		}
	}
	for i, c := range a.After.Clips {
		if i < len(b.After.Clips) && b.After.Clips[i].Condition != c.Condition {
			out = append(out, c.Condition+" or "+b.After.Clips[i].Condition)
		}
	}
	sort.Strings(out)
	return out
}

func check(t *testing.T, out *tally) {
	t.Helper()
	t.Log(out)
	for _, b := range out.bad {
		t.Error(b)
	}
	// A study in which nearly every move is refused or fails tests nothing.
	if 2*(out.refused+out.failed+out.unconverged) > out.moves {
		t.Error("more than half of the moves have no answer")
	}
}

// Random moves of all sliders in the geometry tier: every answer is finite, every refusal names its field, and no step
// of one slider makes the annulus or the leak jump without a finding that says why. The seed is fixed; SEED chooses another.
func TestRandomSliders(t *testing.T) {
	n, seed := 200, uint64(1)
	if raceDetector {
		n = 20 // some ten times slower
	}
	if text := os.Getenv("SEED"); text != "" {
		fmt.Sscan(text, &seed)
	}
	if text := os.Getenv("MOVES"); text != "" {
		fmt.Sscan(text, &n)
	}
	check(t, sliders(t, n, seed))
}
