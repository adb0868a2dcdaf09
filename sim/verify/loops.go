package verify

import (
	"math"

	"annuloscope/sim/beat/loop"
)

func sampled(steps int, period float64, f func(float64) float64) []float64 {
	a := make([]float64, 2*steps)
	for k := range a {
		a[k] = f(loop.StageTime(k, steps, period))
	}
	return a
}

// threeRing is the loop of physics.md C1 (S29): ventricle, arteries, veins; leak in mL/s/√mmHg.
func threeRing(steps int, leak float64) *loop.Ring {
	const period, scale = 0.85, 1.67218
	hill := func(t float64) float64 {
		u := math.Pow(t/(0.303*period), 1.32)
		return scale * u / (1 + u) / (1 + math.Pow(t/(0.508*period), 21.9))
	}
	return &loop.Ring{Period: period, Steps: steps,
		Compartments: []loop.Compartment{{Emin: 0.03, Emax: 1.5, Activation: sampled(steps, period, hill)}, {Emin: 1 / 1.13}, {Emin: 1 / 11.0}},
		Links:        []loop.Link{{Valve: true, R: 0.033}, {R: 1.11}, {Valve: true, R: 0.006, LeakK: leak}}}
}

// Compartments of fourRing.
const (
	leftVentricle  = 0
	systemicArtery = 2
	lungArtery     = 7
	leftAtrium     = 9
)

// fourRing is the loop of physics.md C2 (S31); mitral and leak in mL/s/√mmHg.
func fourRing(steps int, mitral, leak float64) *loop.Ring {
	ventricle := sampled(steps, 1, func(t float64) float64 {
		switch {
		case t <= 0.30:
			return 0.5 * (1 - math.Cos(math.Pi*t/0.30))
		case t <= 0.45:
			return 0.5 * (1 + math.Cos(math.Pi*(t-0.30)/0.15))
		}
		return 0
	})
	atrium := sampled(steps, 1, func(t float64) float64 {
		if t = math.Mod(t-0.92+2, 1); t > 0.09 {
			return 0
		}
		return 0.5 * (1 - math.Cos(2*math.Pi*t/0.09))
	})
	valve := func(k float64) loop.Link { return loop.Link{Valve: true, InvK2: 1 / (k * k)} }
	in := valve(mitral)
	in.LeakK = leak
	return &loop.Ring{Period: 1, Steps: steps,
		Compartments: []loop.Compartment{
			{P0: 1, V0: 5, Emin: 0.1, Emax: 2.5, Activation: ventricle}, {Emin: 1 / 0.08}, {Emin: 1 / 1.6}, {Emin: 1 / 20.5},
			{P0: 1, V0: 4, Emin: 0.15, Emax: 0.25, Activation: atrium}, {P0: 1, V0: 10, Emin: 0.1, Emax: 1.15, Activation: ventricle},
			{Emin: 1 / 0.18}, {Emin: 1 / 3.8}, {Emin: 1 / 20.5}, {P0: 1, V0: 4, Emin: 0.15, Emax: 0.25, Activation: atrium}},
		Links: []loop.Link{valve(350), {R: 0.003, L: 6.2e-5}, {R: 0.05 + 0.5 + 0.52, L: 0.0017}, {R: 0.075}, valve(400),
			valve(350), {R: 0.002, L: 5.2e-5}, {R: 0.01 + 0.05 + 0.25, L: 0.0017}, {R: 0.006}, in}}
}

// run finds the periodic beat from a start; it panics when there is none, because the rows would mean nothing.
func run(r *loop.Ring, start ...float64) *loop.Solver {
	s := loop.New(r)
	copy(s.State(), start)
	if o := s.Periodic(loop.Search{Warmup: 6, MaxBeats: 60, Tolerance: 1e-8, Margin: 1000}); !o.Converged {
		panic("verify: a benchmark circulation did not become periodic")
	}
	return s
}

func runThree(steps int, leak float64) *loop.Solver {
	return run(threeRing(steps, leak), 7/0.03, 7*1.13, 7*11.0)
}

func runFour(steps int, mitral, leak float64) *loop.Solver {
	return run(fourRing(steps, mitral, leak), 500, 100*0.08, 100*1.6, 0, 20, 500, 30*0.18, 30*3.8, 0, 20)
}

func span(a []float64) (low, high, mean float64) {
	low, high = a[0], a[0]
	for _, x := range a {
		low, high, mean = min(low, x), max(high, x), mean+x
	}
	return low, high, mean / float64(len(a))
}
