package calibrate

import (
	"math"

	"annuloscope/sim/ring"
	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/spatial/r3"
)

// Shapes of the animals. No source in the sheets gives their whole geometry; each figure says where it is from.

// sheep: septal-lateral 26 mm (anatomy.md, "secant cinch stiffness": "if AP is about 26 mm"); commissural from the
// human ratio 28/39 (S01 normal); height by the normal ratio 0.15; vein 5 mm out and 2 mm up (chosen: the sinus of the
// sheep runs close to the annulus, from memory). 64 points: the fit needs no more (see the grid study of package ring).
func sheep() specimen.Shape {
	s := specimen.Functional()
	s.Points, s.VeinPoints = 64, 44
	s.SeptalLateral, s.Commissural, s.Height = 26, 36, 5
	s.Distance, s.Elevation = 5, 2
	return s
}

// pig: as the sheep without a vein in use; size 28 × 39 mm (human normal, S01; none published for S46).
func pig() specimen.Shape {
	s := sheep()
	s.SeptalLateral, s.Commissural = 28, 39
	return s
}

func input(s specimen.Shape, c ring.Constants) *ring.Input {
	b := s.Build()
	return &ring.Input{
		Annulus: ring.Annulus{Rest: b.Annulus, Fibrous: b.Fibrous},
		Vein: ring.Vein{Rest: b.Vein, Station: b.Station, OnAtrium: b.OnAtrium, Partner: b.Partner,
			Distance: b.Distance, Elevation: b.Elevation},
		Constants: c,
	}
}

// losses are the falls of septal-lateral diameter, commissural diameter and area in %.
func losses(r *ring.Result) (sl, ic, area float64) {
	return 100 * r.SeptalLateralLoss() / r.Before.SeptalLateralMM, 100 * r.CommissuralLoss() / r.Before.CommissuralMM,
		100 * (1 - r.After.AreaMM2/r.Before.AreaMM2)
}

// cinch is experiment S45: a suture in the coronary sinus of the sheep held at a tension, from 6 mm behind the ostium
// to where the vein leaves the atrium.
func cinch(c ring.Constants, tension float64) ring.Result {
	in := input(sheep(), c)
	in.Band = &ring.Band{ProximalMM: 6, DistalMM: leaving(in), TensionN: tension}
	return ring.Solve(in)
}

// leaving is the station where the vein is half off the atrium.
func leaving(in *ring.Input) float64 {
	for j, w := range in.Vein.OnAtrium {
		if w < 0.5 {
			return in.Vein.Station[j]
		}
	}
	return in.Vein.Station[len(in.Vein.Station)-1]
}

// sutureShares are the published forces towards P1, P2, P3 at 32 % (S46), as shares of their sum.
var sutureShares = [3]float64{1.2 / 3.5, 1.5 / 3.5, 0.8 / 3.5}

// sutures is experiment S46: three sutures from the anterolateral trigone to the middles of P1, P2 and P3 of the pig.
// hold gives tension (N) or shortening (mm) of each from its rest length.
func sutures(c ring.Constants, hold func(k int, length float64) ring.Tie) ring.Result {
	in := input(pig(), c)
	from, to := ring.PosteriorArc(&in.Annulus)
	n := len(in.Annulus.Rest)
	a := int(math.Round(from))
	for k := range 3 {
		// P1, P2, P3 are taken as thirds of the posterior arc; a suture goes to the middle of each.
		b := int(math.Round(from+(to-from)*(2*float64(k)+1)/6)) % n
		t := hold(k, r3.Norm(r3.Sub(in.Annulus.Rest[b], in.Annulus.Rest[a])))
		t.A, t.B = a, b
		in.Ties = append(in.Ties, t)
	}
	return ring.Solve(in)
}

// suturesHeld holds the three sutures at a total tension, shared as published.
func suturesHeld(c ring.Constants, total float64) ring.Result {
	return sutures(c, func(k int, _ float64) ring.Tie { return ring.Tie{TensionN: total * sutureShares[k]} })
}

// suturesPulled shortens every suture by the same percentage.
func suturesPulled(c ring.Constants, percent float64) ring.Result {
	return sutures(c, func(_ int, l float64) ring.Tie { return ring.Tie{ShorteningMM: l * percent / 100} })
}
