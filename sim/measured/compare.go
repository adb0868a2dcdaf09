package measured

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/geometry/contour"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// compare adds how far the model's curves lie from the fitted ones: the price of describing a shape by a few numbers.
func (r *Result) compare(ring *contour.Annulus, vein *course) error {
	rest, err := valve.RestOf(&r.Case.Patient)
	if err != nil {
		return err
	}
	r.gap("annulus curve", "the model's annulus", ring.Curve, rest.Annulus, true)
	if vein == nil {
		return nil
	}
	r.gap("sinus curve", "the model's vein", vein.points, rest.Vein, false)
	if vein.arteryAt != nil {
		values, err := vein.arteryRest(vein.arteryAt)(&r.Case.Patient)
		if err != nil {
			return err
		}
		res := Residual{Curve: "artery curve, seen from the vein", From: "the model's artery", Points: len(values) / 2}
		for k := 0; k+1 < len(values); k += 2 {
			res.RMSMM += values[k]*values[k] + values[k+1]*values[k+1]
			res.MaxMM = math.Max(res.MaxMM, math.Hypot(values[k], values[k+1]))
		}
		res.RMSMM = math.Sqrt(res.RMSMM / float64(res.Points))
		r.Residuals = append(r.Residuals, res)
	}
	return nil
}

func (r *Result) gap(curve, from string, points, model []r3.Vec, closed bool) {
	res := Residual{Curve: curve, From: from, Points: len(points)}
	for _, p := range points {
		d := geometry.NearestOnCurve(model, closed, p).DistanceMM
		res.RMSMM += d * d
		res.MaxMM = math.Max(res.MaxMM, d)
	}
	res.RMSMM = math.Sqrt(res.RMSMM / float64(res.Points))
	r.Residuals = append(r.Residuals, res)
}
