package valve

import (
	"errors"
	"math"

	"annuloscope/sim/anatomy"
)

const (
	// reflexGain is the open-loop gain of the reflex that holds the arterial pressure by way of the body's resistance: a
	// disturbance of the pressure is cut to 1/(1+gain). About 2, from memory of textbooks; minutes, not beats.
	reflexGain      = 2.0
	leastResistance = 0.4 // bounds of the factor; chosen
	mostResistance  = 2.0

	couplePasses = 14     // passes of the quick search before the sure one; chosen
	perFactor    = 100.0  // scale of the factor beside a pressure in mmHg
	stepMMHg     = 15.0   // longest step of either; chosen
	dropShare    = 0.6    // by how much arterial and closing pressure follow the resistance, both relative: a first guess
	minPivot     = 0.0025 // least determinant of the slopes; chosen
)

// hopeless is how many states in a row without a steady beat end the search; chosen.
const hopeless = 3

var errUnsteady = errors.New("valve: no steady beat")

// wanted is the factor on the body's resistance that the reflex asks for at a mean arterial pressure: 1 − gain·(P/P₀ − 1),
// P₀ the pressure the patient was measured at. What lowers the resistance for good (medication) lowers P₀ with it, and in
// effort the nerves command the resistance instead: the gain fades with the effort.
func (c *circulation) wanted(arterial float64, heart *anatomy.Heart, p *plan) float64 {
	f := 1 - reflexGain*(1-heart.Exercise)*(arterial/(c.arterial*p.resistance)-1)
	return math.Min(math.Max(f, leastResistance), mostResistance)
}

// slopes2 are the derivatives of the two misses by pressure and scaled factor; the zero value is unknown.
type slopes2 [2][2]float64

func firstSlopes(pressure float64) slopes2 {
	k := dropShare * pressure / perFactor
	return slopes2{{-1, k}, {0, -(1 + reflexGain*dropShare)}}
}

// couple finds closing pressure (mmHg) and resistance factor at which both are what the circulation gives for them, by
// Broyden's method. found returns the pressure and the factor that it gives. It reports whether it got there; slopes keep
// what was learnt for the next time.
func couple(pressure, factor float64, slopes *slopes2, found func(pressure, factor float64) (float64, float64, error)) (float64, bool, error) {
	if *slopes == (slopes2{}) {
		*slopes = firstSlopes(pressure)
	}
	j := slopes
	x := [2]float64{pressure, perFactor * factor}
	var last, step [2]float64
	for pass := 1; ; pass++ {
		p, f, err := found(x[0], x[1]/perFactor)
		if err != nil {
			return x[0], false, err
		}
		miss := [2]float64{p - x[0], perFactor*f - x[1]}
		if math.Max(math.Abs(miss[0]), math.Abs(miss[1])) < pressureToleranceMMHg {
			return x[0], true, nil
		}
		if pass == couplePasses {
			*slopes = slopes2{}
			return x[0], false, nil
		}
		if pass > 1 {
			norm := step[0]*step[0] + step[1]*step[1]
			for i := range j {
				d := (miss[i] - last[i] - j[i][0]*step[0] - j[i][1]*step[1]) / norm
				j[i][0] += d * step[0]
				j[i][1] += d * step[1]
			}
		}
		det := j[0][0]*j[1][1] - j[0][1]*j[1][0]
		if !(det > minPivot) {
			*j = firstSlopes(pressure)
			det = j[0][0]*j[1][1] - j[0][1]*j[1][0]
		}
		step = [2]float64{(j[0][1]*miss[1] - j[1][1]*miss[0]) / det, (j[1][0]*miss[0] - j[0][0]*miss[1]) / det}
		if most := math.Max(math.Abs(step[0]), math.Abs(step[1])); most > stepMMHg {
			step[0], step[1] = step[0]*stepMMHg/most, step[1]*stepMMHg/most
		}
		last = miss
		x[0] = math.Max(1, x[0]+step[0])
		x[1] = math.Min(math.Max(x[1]+step[1], perFactor*leastResistance), perFactor*mostResistance)
	}
}

// settle balances valve and circulation. state solves both at a closing pressure and a resistance factor and returns the
// pressure and the factor that the circulation then gives. The quick search comes first; where it fails, the pressure is
// balanced with the reflex settled at each.
func (c *circulation) settle(pressure float64, slopes *slopes2, state func(pressure, factor float64) (float64, float64, error)) (float64, error) {
	factor, unsteady := c.factor, 0
	p, ok, err := couple(pressure, factor, slopes, func(pressure, f float64) (float64, float64, error) {
		c.factor = f
		drop, want, err := state(pressure, f)
		if unsteady++; !c.unsteady {
			unsteady = 0
		}
		if err == nil && unsteady == hopeless {
			err = errUnsteady
		}
		return drop, want, err
	})
	if err == errUnsteady || err == nil && !ok && c.unsteady { // without a steady beat there is nothing to balance: the status says so
		return p, nil
	}
	if ok || err != nil {
		return p, err
	}
	c.factor = factor
	return balance(pressure, func(pressure float64) (float64, error) {
		var drop float64
		inner, err := balance(perFactor*c.factor, func(f float64) (float64, error) {
			var want float64
			var err error
			drop, want, err = state(pressure, f/perFactor)
			return perFactor * want, err
		})
		c.factor = inner / perFactor
		return drop, err
	})
}
