package verify

import "annuloscope/sim/beat/loop"

// run finds the periodic beat of a published circuit; it panics when there is none, because the rows would mean nothing.
func run(r *loop.Ring, start func(*loop.Solver)) *loop.Solver {
	s := loop.New(r)
	start(s)
	if o := s.Periodic(loop.Search{Warmup: 6, MaxBeats: 60, Tolerance: 1e-8, Margin: 1000}); !o.Converged {
		panic("verify: a benchmark circulation did not become periodic")
	}
	return s
}

func runThree(steps int, leak float64) *loop.Solver {
	return run(loop.Three(steps, leak), loop.StartThree)
}

func runFour(steps int, mitral, leak float64) *loop.Solver {
	return run(loop.Four(steps, mitral, leak), loop.StartFour)
}

func span(a []float64) (low, high, mean float64) {
	low, high = a[0], a[0]
	for _, x := range a {
		low, high, mean = min(low, x), max(high, x), mean+x
	}
	return low, high, mean / float64(len(a))
}
