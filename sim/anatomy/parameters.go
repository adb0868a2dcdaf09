package anatomy

// Parameter describes one number of a patient.
type Parameter struct {
	Path     string
	Unit     string
	Min, Max float64 // allowed, inclusive
	Default  float64 // the invented normal adult; NaN for a measurement that may be left out
	Step     float64 // one key press of its control
	Meaning  string
	Source   string
	At       func(*Patient) *float64
}

// Parameters lists every number of a patient, in the order in which people meet them.
func Parameters() []Parameter { return append([]Parameter(nil), parameters...) }

// Find returns the parameter with that path.
func Find(path string) (Parameter, bool) {
	for _, p := range parameters {
		if p.Path == path {
			return p, true
		}
	}
	return Parameter{}, false
}

// Normal returns the invented normal adult: every parameter at its default.
func Normal() Patient {
	p := Patient{}
	for _, c := range choices {
		*c.At(&p) = c.Default
	}
	for _, q := range parameters {
		*q.At(&p) = q.Default
	}
	return p
}

const (
	chosen = "chosen for the invented normal adult"
	common = "common practice, no source"
)

var parameters = concat(annulusParameters, leafletParameters, sinusParameters, arteryParameters, heartParameters)

func concat(groups ...[]Parameter) []Parameter {
	var all []Parameter
	for _, g := range groups {
		all = append(all, g...)
	}
	return all
}
