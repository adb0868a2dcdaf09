package loop

import "math"

// hill is the double-Hill activation of physics.md C1 (S29) at t (s) for a beat of period T, before scaling.
func hill(t, T float64) float64 {
	u := math.Pow(t/(0.303*T), 1.32)
	return u / (1 + u) / (1 + math.Pow(t/(0.508*T), 21.9))
}

// hillScale makes the largest value of k·hill equal to one; it also returns the phase of the peak.
func hillScale() (k, at float64) {
	lo, hi := 0.3, 0.6
	g := (math.Sqrt(5) - 1) / 2
	for range 200 {
		a, b := hi-g*(hi-lo), lo+g*(hi-lo)
		if hill(a, 1) > hill(b, 1) {
			hi = b
		} else {
			lo = a
		}
	}
	at = (lo + hi) / 2
	return 1 / hill(at, 1), at
}

func sampled(steps int, T float64, f func(t float64) float64) []float64 {
	a := make([]float64, stages*steps)
	for k := range a {
		a[k] = f(StageTime(k, steps, T))
	}
	return a
}

const hillPeriod = 0.85 // s, physics.md C1

// Three is the loop of physics.md C1 (S29): LV, arteries, veins; leak in mL/s/√mmHg.
func Three(steps int, leak float64) *Ring {
	k, _ := hillScale()
	return &Ring{Period: hillPeriod, Steps: steps,
		Compartments: []Compartment{
			{Emin: 0.03, Emax: 1.5, Activation: sampled(steps, hillPeriod, func(t float64) float64 { return k * hill(t, hillPeriod) })},
			{Emin: 1 / 1.13}, {Emin: 1 / 11.0}},
		Links: []Link{{Valve: true, R: 0.033}, {R: 1.11}, {Valve: true, R: 0.006, LeakK: leak}},
	}
}

// StartThree puts every compartment of C1 at 7 mmHg.
func StartThree(s *Solver) {
	copy(s.State(), []float64{7 / 0.03, 7 * 1.13, 7 * 11.0})
}

// ventricleCosine and atriumCosine are the activations of physics.md C2 (S31), T = 1 s.
func ventricleCosine(t float64) float64 {
	switch {
	case t <= 0.30:
		return 0.5 * (1 - math.Cos(math.Pi*t/0.30))
	case t <= 0.45:
		return 0.5 * (1 + math.Cos(math.Pi*(t-0.30)/0.15))
	}
	return 0
}

func atriumCosine(t float64) float64 {
	t = math.Mod(t-0.92+2, 1)
	if t > 0.09 {
		return 0
	}
	return 0.5 * (1 - math.Cos(2*math.Pi*t/0.09))
}

// Compartments of Four, in order of the flow.
const (
	FourLV = iota
	FourSinus
	FourArtery
	FourVein
	FourRA
	FourRV
	FourPulmonarySinus
	FourPulmonaryArtery
	FourPulmonaryVein
	FourLA
)

// Four is the loop of physics.md C2 (S31); mitral and leak in mL/s/√mmHg.
func Four(steps int, mitral, leak float64) *Ring {
	v, a := sampled(steps, 1, ventricleCosine), sampled(steps, 1, atriumCosine)
	k := func(q float64) float64 { return 1 / (q * q) }
	return &Ring{Period: 1, Steps: steps,
		Compartments: []Compartment{
			{P0: 1, V0: 5, Emin: 0.1, Emax: 2.5, Activation: v},
			{Emin: 1 / 0.08}, {Emin: 1 / 1.6}, {Emin: 1 / 20.5},
			{P0: 1, V0: 4, Emin: 0.15, Emax: 0.25, Activation: a},
			{P0: 1, V0: 10, Emin: 0.1, Emax: 1.15, Activation: v},
			{Emin: 1 / 0.18}, {Emin: 1 / 3.8}, {Emin: 1 / 20.5},
			{P0: 1, V0: 4, Emin: 0.15, Emax: 0.25, Activation: a}},
		Links: []Link{
			{Valve: true, InvK2: k(350)},
			{R: 0.003, L: 6.2e-5},
			{R: 0.05 + 0.5 + 0.52, L: 0.0017}, // artery, arteriole and capillary in series: no capacitor between
			{R: 0.075},
			{Valve: true, InvK2: k(400)},
			{Valve: true, InvK2: k(350)},
			{R: 0.002, L: 5.2e-5},
			{R: 0.01 + 0.05 + 0.25, L: 0.0017},
			{R: 0.006},
			{Valve: true, InvK2: k(mitral), LeakK: leak},
		},
	}
}

// StartFour is the start of C2: conserved sum 1327.40 mL.
func StartFour(s *Solver) {
	copy(s.State(), []float64{500, 100 * 0.08, 100 * 1.6, 0, 20, 500, 30 * 0.18, 30 * 3.8, 0, 20})
}
