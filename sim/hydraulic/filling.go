package hydraulic

import (
	"math"

	"annuloscope/sim/units"
)

// FlowShape returns the diastolic flow at u (0 start to 1 end of filling) divided by its mean: a triangular early
// wave with linear deceleration, a pause, and a half-sine atrial wave (constants.go). Zero outside 0..1.
func FlowShape(u float64) float64 { return rawShape(u) / shapeMean }

// FormFactor is mean(flow²) ÷ mean(flow)² of FlowShape: how much larger the mean gradient is than that of steady
// flow. Closed form, 1.45 with the constants in constants.go.
const FormFactor = shapeSquare / (shapeMean * shapeMean)

// PeakFactor is peak ÷ mean flow of FlowShape.
const PeakFactor = 1 / shapeMean

// Closed forms: a triangle of height 1 and base b has mean b/2 and mean square b/3; a half sine of height h and
// base b has mean 2hb/π and mean square h²b/2.
const (
	shapeMean   = earlyEnd/2 + 2/math.Pi*(1-atrialFrom)/eaRatio
	shapeSquare = earlyEnd/3 + (1-atrialFrom)/(2*eaRatio*eaRatio)
)

func rawShape(u float64) float64 {
	switch {
	case u <= 0 || u >= 1:
		return 0
	case u < earlyPeak:
		return u / earlyPeak
	case u < earlyEnd:
		return (earlyEnd - u) / (earlyEnd - earlyPeak)
	case u > atrialFrom:
		return math.Sin(math.Pi*(u-atrialFrom)/(1-atrialFrom)) / eaRatio
	}
	return 0
}

// FillingInput is what one diastole needs.
type FillingInput struct {
	Opening   units.EffectiveCM2 // total effective opening; the split into orifices does not matter
	ForwardML float64            // forward stroke volume
	LeakML    float64            // regurgitant volume: it comes back through the valve in diastole
	FillingS  float64            // filling time; FillingTime(rate) when not measured
}

// Filling is the answer of Fill.
type Filling struct {
	VolumeML         float64 // forward + leak, what crosses the open valve
	MeanFlowMLPerS   float64
	PeakFlowMLPerS   float64
	MeanGradientMMHg float64 // mean over the filling time
	PeakGradientMMHg float64
	EarlySpeedCMPS   float64 // peak speed of the early wave, cm/s
	AtrialSpeedCMPS  float64 // peak speed of the atrial wave, cm/s
}

// Fill returns gradient and speeds of one diastole with pulsatile flow of FlowShape. With an opening of 0 and a
// volume the gradients are +Inf: the caller decides what to say.
func Fill(in FillingInput) Filling {
	if in.Opening < 0 || in.ForwardML < 0 || in.LeakML < 0 || in.FillingS <= 0 {
		panic("hydraulic: negative opening or volume, or filling time not above 0")
	}
	f := Filling{VolumeML: in.ForwardML + in.LeakML}
	f.MeanFlowMLPerS = f.VolumeML / in.FillingS
	f.PeakFlowMLPerS = f.MeanFlowMLPerS * PeakFactor
	f.MeanGradientMMHg = FormFactor * Gradient(in.Opening, f.MeanFlowMLPerS)
	f.PeakGradientMMHg = Gradient(in.Opening, f.PeakFlowMLPerS)
	f.EarlySpeedCMPS = JetSpeed(f.PeakGradientMMHg)
	f.AtrialSpeedCMPS = f.EarlySpeedCMPS / eaRatio
	return f
}

// FillingTime returns the filling time in s at a heart rate in beats/min, for rates from 40 to 180 (rates outside
// are used as they stand; above 190/min the law stops falling and should not be used). Law in constants.go.
func FillingTime(ratePerMin float64) float64 {
	if ratePerMin <= 0 {
		panic("hydraulic: heart rate not above 0")
	}
	return 60/ratePerMin - EjectionTime(ratePerMin) - isovolumicTime
}

// EjectionTime returns the left ventricular ejection time in s at a heart rate in beats/min (constants.go).
func EjectionTime(ratePerMin float64) float64 { return ejectionAt0 - ejectionSlope*ratePerMin }
