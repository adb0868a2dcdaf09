package valve

import (
	"annuloscope/sim/anatomy"
	"annuloscope/sim/beat"
	"annuloscope/sim/closure"
	"annuloscope/sim/units"
)

// courseSamples is how finely the course of the orifice goes to the circulation; the phases behind it are nine. Chosen.
const courseSamples = 33

// systole is the leak over one systole: the closure at every phase and what the circulation takes from it.
type systole struct {
	course  closure.Course
	area    units.EffectiveCM2 // reference: the peak of the course
	factors beat.Course        // orifice ÷ area at courseSamples even phases; empty for a tight valve
	work    closure.Workspace
	phases  []closure.Phase
}

// phasesOf picks how annulus, papillary muscles and faulty chords move through systole for a patient. A tethered valve
// keeps the course of the functional patients (anatomy.md S01), every other that of the normal annulus; long
// chords come late in both.
func phasesOf(p *anatomy.Patient) []closure.Phase {
	prolapse := closure.ProlapsePhases()
	if p.Mechanism != anatomy.Functional {
		return prolapse
	}
	phases := closure.TetheredPhases()
	for i := range phases {
		phases[i].Excess = prolapse[i].Excess
	}
	return phases
}

// follow solves the closure over systole around a mid-systolic state.
func (s *systole) follow(b *baseline, in *closure.Input, clips []closure.Clip, mid *closure.Result) {
	if s.phases == nil {
		s.phases = phasesOf(&b.patient)
	}
	s.work.Course(b.fitted, in, clips, mid, s.phases, &s.course)
	s.area = s.course.Peak()
	s.factors = s.factors[:0]
	for i := 0; i < courseSamples && s.area > 0; i++ {
		s.factors = append(s.factors, float64(s.course.At(float64(i)/(courseSamples-1))/s.area))
	}
}

// shown copies the course for the report.
func (s *systole) shown() Course {
	c := Course{Phase: append([]float64{}, s.course.Time...), TentingVolumeML: append([]float64{}, s.course.TentingML...),
		ContactMM: append([]float64{}, s.course.ContactMM...), EffectiveOrificeCM2: append([]units.EffectiveCM2{}, s.course.Orifice...)}
	return c
}
