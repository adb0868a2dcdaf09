package beat

import "math"

// measureDiastole fills gradient, filling time, E and A.
func (w *Workspace) measureDiastole() {
	r, v, n, T := &w.result, &w.result.Waves, w.ring.Steps, w.ring.Period
	h := T / float64(n)
	scale := timeScale(T)
	atrial := T - atrialLead*scale // onset of the atrial contraction
	area := func(i int) float64 {
		a := float64(w.p.Mitral.AreaCM2)
		if w.ring.Links[la].ForwardInvK2 != nil {
			a *= math.Sqrt(w.ring.Links[la].InvK2 / w.opening[(2*i-1+2*n)%(2*n)])
		}
		return a
	}
	first := int(math.Ceil(w.openAt / h))
	last, ePeak := first, first
	for k := first; k < first+n; k++ {
		i := k % n
		q := v.MitralForward[i]
		if q <= 0 && (k > first || float64(k)*h > w.closeAt+T) {
			break
		}
		last = k
		r.PeakGradientMMHg = max(r.PeakGradientMMHg, v.LA[i]-v.LV[i])
		speed := q / area(i)
		switch {
		case float64(k)*h < atrial:
			if speed > r.EWaveCMS {
				r.EWaveCMS, ePeak = speed, k
			}
		case speed > r.AWaveCMS:
			r.AWaveCMS = speed
		}
		if float64(k)*h >= atrial-h {
			r.LAAWaveMMHg = max(r.LAAWaveMMHg, v.LA[i])
		}
	}
	// The flow ends on the straight line through its last two samples, at the latest one sample on.
	end := float64(last) * h
	if before, q := v.MitralForward[(last-1)%n], v.MitralForward[last%n]; before > q {
		end += h * min(1, q/(before-q))
	}
	r.FillingS = end - w.openAt
	r.MeanGradientMMHg = w.average(v.LA, w.openAt, end) - w.average(v.LV, w.openAt, end)
	for k := ePeak; k < ePeak+n && float64(k)*h < atrial; k++ {
		if q := v.MitralForward[k%n] / area(k%n); q <= 0.5*r.EWaveCMS {
			r.EDecelerationS = 2 * float64(k-ePeak) * h
			break
		}
	}
}
