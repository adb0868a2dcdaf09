package verify

import (
	"fmt"
	"math"

	"annuloscope/sim/closure"
)

// strips checks the contact of sim/closure on physics.md D5.
func strips() []Row {
	s := &sheet{group: "D5 pressed strips", source: "physics.md D5"}
	for _, c := range [][5]float64{{1.05, 0.15, 0.968656, 0.345947, 0.714896}, {1.10, 0.20, 1.401379, 0.240560, 0.762884},
		{1.10, 0.30, 0.968656, 0.691894, 0.429793}, {1.20, 0.40, 1.401379, 0.481121, 0.525767}} {
		angle, radius, contact, ok := closure.PressedStrips(c[0], c[1])
		if !ok {
			angle, radius, contact = math.NaN(), math.NaN(), math.NaN()
		}
		where := fmt.Sprintf(", length ratio %g, distance %g", c[0], c[1])
		s.exact("arc angle"+where, "rad", c[2], angle, 1e-4, "")
		s.exact("arc radius"+where, "half spans", c[3], radius, 1e-4, "")
		s.exact("contact half width"+where, "half spans", c[4], contact, 1e-4, "")
	}
	return s.rows
}
