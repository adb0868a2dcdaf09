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
	vessels      []valve.VesselShape
	branches     []branch
}

// branch is a side branch of the artery that runs under the vein.
type branch struct {
	name             string
	at               float64 // station
	height, distance float64 // of its middle
	radius, narrow   float64
}

func newStrip(sh *valve.Shapes, s *study.Study) strip {
	t := strip{vein: unroll(sh.Vein, sh.VeinStation, sh.VeinRadius, sh.Annulus), artery: unroll(sh.Artery, sh.ArteryStation, sh.ArteryRadius, sh.Annulus),
		length: s.Case.Patient.Sinus.LengthMM, force: sh.VeinContact, vessels: sh.Vessels}
	for _, v := range sh.Vessels[min(1, len(sh.Vessels)):] {
		t.branches = append(t.branches, t.place(v))
	}
	return t
}

// place puts a branch on the side of the vein that faces the annulus, its tissue between.
func (t *strip) place(v valve.VesselShape) branch {
	b := branch{name: v.Name, height: math.NaN()}
	if len(v.StationMM) == 0 {
		return b
	}
	m := len(v.StationMM) / 2
	b.at, b.radius, b.narrow = v.StationMM[m], v.LumenMM[m]/2, top(v.WorstViewPct)
	for i, s := range t.vein.station {
		if s < b.at {
			continue
		}
		c := &t.vein
		away := c.radius[i] + v.ClearanceMM[m] + b.radius
		to := math.Hypot(c.height[i], c.distance[i])
		b.height, b.distance = c.height[i]*(1-away/to), c.distance[i]*(1-away/to)
		break
	}
	return b
}

// least is the smallest clearance along all vessels; NaN where there are none.
func (t *strip) least() float64 {
	m := math.NaN()
	for _, v := range t.vessels {
		for _, c := range v.ClearanceMM {
			if !(c >= m) {
				m = c
			}
		}
	}
	return m
}

// most is the largest narrowing along all vessels.
func (t *strip) most() float64 {
	m := 0.0
	for _, v := range t.vessels {
		m = math.Max(m, top(v.WorstViewPct))
	}
	return m
}
