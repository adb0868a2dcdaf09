package casefile

import (
	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
)

// Case is one document: a patient and the ordered repairs done to it.
type Case struct {
	Name    string // short, lower case, used on the command line
	Title   string // what a person reads
	Note    string // one or two sentences; built-in patients say that they are invented
	Patient anatomy.Patient
	Repairs []repair.Step
}

// Clone returns an independent copy.
func (c Case) Clone() Case {
	d := c
	d.Repairs = make([]repair.Step, len(c.Repairs))
	for i, s := range c.Repairs {
		d.Repairs[i] = s.Clone()
	}
	return d
}

// Validate checks the patient, every repair, and what depends on both (anchors on the vein).
func (c Case) Validate() error {
	if err := c.Patient.Validate(); err != nil {
		return err
	}
	if err := repair.ValidateAll(c.Repairs); err != nil {
		return err
	}
	return c.anchorsOnVein()
}
