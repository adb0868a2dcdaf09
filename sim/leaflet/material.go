package leaflet

// law is the tension of a fibre family per unit width against its strain e = λ − 1: a soft toe, a stiff part above
// toeStrain, nearly slack in compression, every change of slope spread over a short quadratic blend so that the
// tangent is continuous (shell.md "Formulation"). Its tangent is never negative.
type law struct {
	toe, post   float64 // N/mm
	toeEnd      float64 // strain
	toeHalf     float64 // half-width of the blend there
	slack       float64 // compression tangent / toe tangent
	slackHalf   float64
	compression bool // false: linear, the same in tension and compression (closed-form tests)
}

// tissue is the law of the leaflets.
var tissue = law{
	toe: toeStiffness, post: postStiffness, toeEnd: toeStrain, toeHalf: toeBlend,
	slack: slackFactor, slackHalf: slackBlend, compression: true,
}

// ramp is max(0, x) with a quadratic blend of half-width h, its integral from −∞ and its slope.
func ramp(x, h float64) (integral, value, slope float64) {
	switch {
	case x <= -h:
		return 0, 0, 0
	case x >= h:
		return x*x/2 + h*h/6, x, 1
	}
	t := x + h
	return t * t * t / (12 * h), t * t / (4 * h), t / (2 * h)
}

// at returns energy per rest area, tension and tangent at strain e.
func (m *law) at(e float64) (energy, tension, tangent float64) {
	energy, tension, tangent = m.toe*e*e/2, m.toe*e, m.toe
	if m.compression && e < 0 {
		// Full tangent down to −0, then falling to the slack one at −2·slackHalf; stress-free at e = 0.
		i, v, d := ramp(-e-m.slackHalf, m.slackHalf)
		soft := m.toe * (1 - m.slack)
		energy -= soft * i
		tension += soft * v
		tangent -= soft * d
	}
	if m.post > 0 && e > m.toeEnd-m.toeHalf {
		i, v, d := ramp(e-m.toeEnd, m.toeHalf)
		energy += m.post * i
		tension += m.post * v
		tangent += m.post * d
	}
	return energy, tension, tangent
}
