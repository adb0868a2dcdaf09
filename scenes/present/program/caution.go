package program

// caution is the line that is always in view; imported geometry is named as such.
func (p *Program) caution() string {
	t := p.d.W()
	if p.d.S.Case.Patient.Imported {
		return t.T("imported.mark") + ": " + t.T("imported.why") + " " + t.T("app.caution")
	}
	return t.T("app.caution")
}
