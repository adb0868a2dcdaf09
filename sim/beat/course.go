package beat

import (
	"math"

	"annuloscope/sim/beat/loop"
	"annuloscope/sim/units"
)

// varies reports whether the leak's area changes over the beat.
func (l *Leak) varies() bool {
	return l.AreaCM2 > 0 && (len(l.Course) > 0 || l.PressureExponent != 0 || l.VolumeSlope != 0)
}

// factor is the share of AreaCM2 that is open at systolic phase s, LV − LA difference dp (mmHg), LV volume v (mL).
func (l *Leak) factor(s, dp, v float64) float64 {
	f := l.Course.at(s)
	if l.PressureExponent != 0 {
		x := math.Pow(max(dp, pressureFloor)/l.PressureReferenceMMHg, l.PressureExponent)
		f *= min(max(x, pressureFactorMin), pressureFactorMax)
	}
	if l.VolumeSlope != 0 {
		f *= min(max(1+l.VolumeSlope*(v/l.VolumeReferenceML-1), volumeFactorMin), volumeFactorMax)
	}
	return f
}

// Refresh lays the leak and opening courses from the last beat (loop.Refresher).
func (w *Workspace) Refresh() float64 {
	leak, opening := w.p.Leak.varies(), len(w.p.Mitral.Shape) > 0
	if !leak && !opening {
		return 0
	}
	T := w.ring.Period
	fresh := !w.haveSystole
	if w.haveSystole {
		w.findSystole(courseLevel)
	} else {
		w.closeAt, w.openAt = 0, nominalEnd*timeScale(T)
		w.haveSystole = true
	}
	moved := 0.0
	duration := w.openAt - w.closeAt
	rest := T - duration
	base := units.JetSpeedPerRootMMHg * float64(w.p.Leak.AreaCM2)
	for k := range w.leak {
		// x: time since closure, wrapped so that diastole is split in its middle.
		x := math.Mod(loop.StageTime(k, w.ring.Steps, T)-w.closeAt+rest/2, T)
		if x < 0 {
			x += T
		}
		x -= rest / 2
		if leak {
			dp, v := w.p.Leak.PressureReferenceMMHg, w.p.Leak.VolumeReferenceML
			if !fresh {
				dp, v = w.between(k)
			}
			n := base * w.p.Leak.factor(x/duration, dp, v)
			moved = max(moved, math.Abs(n-w.leak[k])/base)
			w.leak[k] = n
		}
		if opening {
			d := x - duration
			if d < 0 {
				d += T
			}
			f := w.p.Mitral.Shape.at(min(d, rest) / rest)
			n := w.ring.Links[la].InvK2 / (f * f)
			moved = max(moved, math.Abs(n-w.opening[k])/n)
			w.opening[k] = n
		}
	}
	return moved / courseTolerance
}

// between is LV − LA (mmHg) and the LV volume (mL) of the last beat at stage sample k.
func (w *Workspace) between(k int) (dp, v float64) {
	n := w.ring.Steps
	i := k / 2
	j := (i + 1) % n
	P, V := w.solver.P, w.solver.V[lv]
	dpj := P[lv][j] - P[la][j]
	if k%2 == 1 {
		return dpj, V[j]
	}
	dpi := P[lv][i] - P[la][i]
	return dpi + loop.Gamma*(dpj-dpi), V[i] + loop.Gamma*(V[j]-V[i])
}

// findSystole sets closeAt and openAt: where LV − LA crosses the given level (mmHg) on both sides of its peak. It
// reports false, and leaves them alone, when there are no two crossings.
func (w *Workspace) findSystole(level float64) bool {
	P, n := w.solver.P, w.ring.Steps
	h := w.ring.Period / float64(n)
	top := 0
	for i := range n {
		if P[lv][i]-P[la][i] > P[lv][top]-P[la][top] {
			top = i
		}
	}
	cross := func(dir int) (float64, bool) {
		prev := P[lv][top] - P[la][top] - level
		for s := 1; s < n; s++ {
			i := ((top+dir*s)%n + n) % n
			d := P[lv][i] - P[la][i] - level
			if prev > 0 && d <= 0 {
				return (float64(top+dir*(s-1)) + float64(dir)*prev/(prev-d)) * h, true
			}
			prev = d
		}
		return 0, false
	}
	a, ok1 := cross(-1)
	b, ok2 := cross(1)
	if !ok1 || !ok2 || b-a <= 0 || b-a >= w.ring.Period {
		return false
	}
	w.closeAt, w.openAt, w.haveSystole = a, b, true
	return true
}
