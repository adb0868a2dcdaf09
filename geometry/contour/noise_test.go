package contour

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"
)

// newNoise returns a fixed sequence of standard normal vectors.
func newNoise(seed uint64) func() r3.Vec {
	r := rand.New(rand.NewPCG(seed, 1))
	return func() r3.Vec { return r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()} }
}
