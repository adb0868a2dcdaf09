package strip

import (
	"math"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// course is a vessel beside the annulus, by sinus station.
type course struct {
	station, height, distance, radius, phi []float64
}

func unroll(line []r3.Vec, station, radius []float64, annulus []r3.Vec) course {
	var c course
	for i, p := range line {
		if i >= len(station) || i >= len(radius) {
			break
		}
		best, at := math.Inf(1), r3.Vec{}
		for _, q := range annulus {
			if d := math.Hypot(p.X-q.X, p.Y-q.Y); d < best {
				best, at = d, q
			}
		}
		if math.Hypot(p.X, p.Y) < math.Hypot(at.X, at.Y) {
			best = -best
		}
		phi := math.Atan2(at.Y, at.X) * 180 / math.Pi
		if phi < 0 {
			phi += 360
		}
		c.station = append(c.station, station[i])
		c.height = append(c.height, p.Z-at.Z)
		c.distance = append(c.distance, best)
		c.radius = append(c.radius, radius[i])
		c.phi = append(c.phi, phi)
	}
	return c
}

// scallops are the stretches of the vein beside P3, P2 and P1: stations at which they begin and end.
func (c *course) scallops() (from, to [3]float64) {
	for k := range 3 {
		from[k], to[k] = math.NaN(), math.NaN()
		hi := 360 - 60*float64(k)
		for i, phi := range c.phi {
			if phi <= hi && phi > hi-60 {
				if math.IsNaN(from[k]) {
					from[k] = c.station[i]
				}
				to[k] = c.station[i]
			}
		}
	}
	return from, to
}

// strip is what the scene shows, made once per report.
type strip struct {
	vein, artery course
	length       float64
	force        []float64 // N/mm by vein station
	narrow       []float64 // % by artery station
}

func newStrip(sh *valve.Shapes, s *study.Study) strip {
	t := strip{vein: unroll(sh.Vein, sh.VeinStation, sh.VeinRadius, sh.Annulus), artery: unroll(sh.Artery, sh.ArteryStation, sh.ArteryRadius, sh.Annulus),
		length: s.Case.Patient.Sinus.LengthMM, force: sh.VeinContact, narrow: sh.ArteryNarrow}
	return t
}
