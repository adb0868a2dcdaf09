package cohort

import (
	"fmt"
	"math/rand/v2"

	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// Drawer draws members whose cases somebody else solves, such as a screen between two pictures. It is read only and may
// be shared by threads.
type Drawer struct {
	plan    Plan
	sampler *sampler
}

// NewDrawer returns a drawer; it panics on shares that are not usable.
func NewDrawer(p Plan) *Drawer { return &Drawer{p, newSampler(p.Mix)} }

// Options are those with which the cases are to be solved, each without history.
func (d *Drawer) Options() valve.Options {
	return valve.Options{Circulation: d.plan.Full, Engine: d.plan.Engine, Brief: true}
}

// Draft is one member being made: ask Next for a case, solve it, give the answer to Take; again until Take has the member.
type Draft struct {
	drawer *Drawer
	source *rand.Rand
	member Member
	now    casefile.Case // drawn, with the repairs
	place  bool          // the repairs have a place in it
}

// Draft begins patient index.
func (d *Drawer) Draft(index int) *Draft {
	r := source(d.plan.Seed, index)
	return &Draft{drawer: d, source: r, member: Member{Index: index, Group: d.sampler.group(r)}}
}

// Next draws until a patient is possible as far as its numbers tell, and returns the case to solve: treated, or untreated
// where the repairs have no place in this anatomy (an anchor beyond the end of the vein). The error means that the tables
// and the program's limits do not go together.
func (d *Draft) Next() (casefile.Case, error) {
	m := &d.member
	for len(m.Rejected) < maxAttempts {
		c := virtual(m.Index, m.Group, d.drawer.sampler.draw(d.source, m.Group))
		if err := c.Validate(); err != nil {
			m.Rejected = append(m.Rejected, reason(err))
			continue
		}
		d.now = c.Clone()
		d.now.Repairs = d.drawer.plan.Repairs
		noPlace := d.now.Validate()
		if d.place = noPlace == nil; d.place {
			return d.now, nil
		}
		m.Unfit = reason(noPlace)
		return c, nil
	}
	return casefile.Case{}, fmt.Errorf("cohort: patient %d: no possible draw in %d; last: %s", m.Index, maxAttempts, m.Rejected[maxAttempts-1])
}

// Take takes the answer to the case of Next and returns the member, or false when no valve with these numbers can be: then
// it is drawn again.
func (d *Draft) Take(r *valve.Report, err error) (Member, bool) {
	m := &d.member
	if err != nil {
		m.Rejected, m.Unfit = append(m.Rejected, reason(err)), ""
		return Member{}, false
	}
	m.Case, m.Before, m.Engine = d.now.Clone(), r.Before, r.Provenance.Engine
	if d.place {
		m.take(r)
	}
	return *m, true
}
