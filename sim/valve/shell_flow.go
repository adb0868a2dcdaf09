package valve

import (
	"errors"
	"math"
	"slices"

	"annuloscope/sim/closure"
	"annuloscope/sim/hydraulic"
	"annuloscope/sim/units"
)

// shellFlow is the balance of one closed shell with the circulation.
type shellFlow struct {
	s     *Solver
	p     *plan
	state *shellState
	// shut solves the shell at a pressure (mmHg) into state; false: called off. sections solves the sections at it.
	shut     func(pressure float64) bool
	sections func(pressure float64) (*systole, units.EffectiveCM2)
}

// solve balances the shell and the circulation from a pressure (mmHg). Between two solves of the shell its leak is taken
// to change with the pressure, and over systole, as that of the sections does.
func (f *shellFlow) solve(pressure float64, o Options) (flow flows, wave *Beats, course systole, ok bool) {
	s, heart := f.s, &f.s.base.patient.Heart
	open := shellOpening(f.state, s.shell.fit).Effective(hydraulic.Contraction)
	for pass := 1; ; pass++ {
		if !f.shut(pressure) {
			return flow, nil, course, false
		}
		mid := f.state.leak.Effective(closure.Contraction)
		whole, there := f.sections(pressure)
		course = whole.like(there, mid)
		if !o.Circulation {
			before := &s.baseFlow
			if !f.p.hasRepairs {
				before = nil
			}
			return quick(s.base, f.p, &course, open, before), nil, course, true
		}
		factor := s.circ.factor
		next, err := s.circ.settle(pressure, new(slopes2), func(p, factor float64) (float64, float64, error) {
			now, here := f.sections(p)
			course = now.like(here, max(0, mid+here-there))
			var err error
			flow, wave, err = s.circ.beatFlows(heart, f.p, &course, open, factor)
			return s.closing(flow.systolicDrop), s.circ.wanted(flow.arterial, heart, f.p), err
		})
		s.circ.factor = factor // the sections' own search goes on from where it was
		if err != nil && !errors.Is(err, errNoBalance) {
			s.shell.failed = err.Error()
			return s.baseFlow, nil, course, true
		}
		if err != nil {
			flow.converged, flow.status = false, err.Error()
		}
		if math.Abs(next-pressure) < shellPressureMMHg || pass == shellPasses {
			return flow, wave, course, true
		}
		pressure = next
	}
}

// likeAtLeast is the mid-systolic orifice (cm²) above which a course is scaled to another one; below, the difference is
// added at every phase. Chosen.
const likeAtLeast = 0.01

// like is the course of a systole brought from one mid-systolic orifice to another.
func (s *systole) like(from, to units.EffectiveCM2) systole {
	out := systole{course: s.course, phases: s.phases}
	out.course.Orifice = slices.Clone(s.course.Orifice)
	for i, v := range out.course.Orifice {
		if from > likeAtLeast {
			out.course.Orifice[i] = v * to / from
		} else {
			out.course.Orifice[i] = max(0, v+to-from)
		}
	}
	out.area = out.course.Peak()
	for i := 0; i < courseSamples && out.area > 0; i++ {
		out.factors = append(out.factors, float64(out.course.At(float64(i)/(courseSamples-1))/out.area))
	}
	return out
}
