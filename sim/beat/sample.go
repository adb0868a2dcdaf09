package beat

import "math"

// at is the straight-line value of a periodic wave at time t (s, any sign).
func (w *Workspace) at(wave []float64, t float64) float64 {
	n := len(wave)
	x := t / w.ring.Period * float64(n)
	f := math.Floor(x)
	i := ((int(f) % n) + n) % n
	j := i + 1
	if j == n {
		j = 0
	}
	return wave[i] + (x-f)*(wave[j]-wave[i])
}

// average is the mean from a to b (s, a < b) of the periodic straight-line wave.
func (w *Workspace) average(wave []float64, a, b float64) float64 {
	n := len(wave)
	h := w.ring.Period / float64(n)
	sum, t := 0.0, a
	left := w.at(wave, a)
	for k := int(math.Floor(a/h)) + 1; t < b; k++ {
		next := min(float64(k)*h, b)
		right := w.at(wave, next)
		sum += 0.5 * (left + right) * (next - t)
		left, t = right, next
	}
	return sum / (b - a)
}
