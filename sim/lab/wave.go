package lab

// Wave is a pressure difference and a flow against time, equal lengths, time rising.
type Wave struct {
	TimeS        []float64
	PressureMMHg []float64 // upstream minus downstream
	FlowMLPerS   []float64
}

func (w Wave) check() {
	if len(w.TimeS) != len(w.PressureMMHg) || len(w.TimeS) != len(w.FlowMLPerS) || len(w.TimeS) < 2 {
		panic("lab: a wave needs equal lengths of at least 2")
	}
	for i := 1; i < len(w.TimeS); i++ {
		if !(w.TimeS[i] > w.TimeS[i-1]) {
			panic("lab: time does not rise")
		}
	}
}

// forward integrates a sampled quantity by the trapezoid rule over the time with forward flow (parts of a step by
// linear interpolation of the flow) and returns the integral and that time.
func (w Wave) forward(value []float64) (integral, time float64) {
	for i := 1; i < len(w.TimeS); i++ {
		q0, q1 := w.FlowMLPerS[i-1], w.FlowMLPerS[i]
		a, b := 0.0, 1.0 // part of the step with forward flow
		switch {
		case q0 <= 0 && q1 <= 0:
			continue
		case q0 <= 0:
			a = -q0 / (q1 - q0)
		case q1 <= 0:
			b = q0 / (q0 - q1)
		}
		at := func(u float64) float64 { return value[i-1] + u*(value[i]-value[i-1]) }
		dt := w.TimeS[i] - w.TimeS[i-1]
		integral += (at(a) + at(b)) / 2 * (b - a) * dt
		time += (b - a) * dt
	}
	return integral, time
}

// Filling is what a catheter laboratory takes from a wave through the mitral valve.
type Filling struct {
	VolumeML         float64 // forward volume
	TimeS            float64 // time with forward flow
	MeanGradientMMHg float64 // mean pressure difference over that time
}

// Measure reads volume, filling time and mean gradient from the forward part of a wave.
func (w Wave) Measure() Filling {
	w.check()
	var f Filling
	f.VolumeML, f.TimeS = w.forward(w.FlowMLPerS)
	sum, _ := w.forward(w.PressureMMHg)
	if f.TimeS > 0 {
		f.MeanGradientMMHg = sum / f.TimeS
	}
	return f
}
