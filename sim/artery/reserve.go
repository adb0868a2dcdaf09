package artery

import (
	"math"

	"annuloscope/sim/units"
)

// drop is the pressure a narrowing costs beyond the open vessel: Viscous·Q + Turbulent·Q², mmHg with Q in mL/s.
type drop struct{ Viscous, Turbulent float64 }

// YoungTsai returns the pressure drop in mmHg of a round narrowing by the share d (0 to 1) of diameter lumenMM over
// lengthMM at a flow in mL/s, blood of density kg/m³: total and its viscous part (physics.md F, constants from
// memory; the inertial term is left out).
func YoungTsai(lumenMM, lengthMM, d, flowMLPerS, densityKgM3 float64) (total, viscous float64) {
	k := youngTsai(lumenMM, lengthMM, d, densityKgM3*1e-12)
	return k.Viscous*flowMLPerS + k.Turbulent*flowMLPerS*flowMLPerS, k.Viscous * flowMLPerS
}

func youngTsai(d0, length, d, density float64) drop {
	ratio := 1 / ((1 - d) * (1 - d))
	kv := 32 * (0.83*length + 1.64*d0*(1-d)) * ratio * ratio / d0
	u := 1000 / (math.Pi * d0 * d0 / 4) // mm/s for 1 mL/s
	return drop{Viscous: units.PressureToMMHg(kv * bloodViscosity * u / d0), Turbulent: turbulence(d0, ratio, density)}
}

// turbulence is ½·Kt·ρ(A0/As−1)²U² for 1 mL/s, mmHg.
func turbulence(d0, ratio, density float64) float64 {
	u := 1000 / (math.Pi * d0 * d0 / 4)
	return units.PressureToMMHg(0.5 * turbulenceKt * density * (ratio - 1) * (ratio - 1) * u * u)
}

// poiseuille is the viscous drop in mmHg per mm of open round vessel at 1 mL/s.
func poiseuille(d0 float64) float64 {
	return units.PressureToMMHg(128 * bloodViscosity * 1000 / (math.Pi * d0 * d0 * d0 * d0))
}

// flattenedDrop is the drop of a flattened vessel beyond its open self: the trapezoid rule over the stations for the
// viscous part, the station with the largest jet for the turbulent part. Infinite when a station is closed.
func flattenedDrop(stations []Station, lumens []Flattened) drop {
	var d drop
	extra := func(i int) float64 { return poiseuille(stations[i].LumenMM) * (1/lumens[i].Conductance - 1) }
	for i, l := range lumens {
		if l.Minor == 0 {
			return drop{math.Inf(1), math.Inf(1)}
		}
		d.Turbulent = math.Max(d.Turbulent, turbulence(stations[i].LumenMM, 1/l.Area, bloodDensity))
		if i > 0 {
			d.Viscous += (extra(i) + extra(i-1)) / 2 * (stations[i].AtMM - stations[i-1].AtMM)
		}
	}
	return d
}

// Flow is what a narrowed vessel gives its bed.
type Flow struct {
	RestMLPerS    float64 // at rest; the bed dilates to keep it while it can
	DilatedMLPerS float64 // fully dilated
	Reserve       float64 // dilated ÷ rest; Dilation when open, 1 when the bed is fully dilated at rest
	DistalShare   float64 // pressure beyond the narrowing ÷ arterial pressure, dilated
}

// RoundFlow returns the flow through a round narrowing by the share d of diameter over a length, in series with a bed,
// at an arterial pressure (mmHg): the reference curve of physics.md F for the bed model. Blood density 1050 kg/m³ as
// there. An unnarrowed vessel belongs to the bed.
func RoundFlow(lumenMM, lengthMM, d, pressureMMHg float64, bed Bed) Flow {
	k := drop{}
	if d > 0 {
		k = youngTsai(lumenMM, lengthMM, d, 1050e-12)
	}
	return seriesFlow(k, pressureMMHg, bed.filled(lumenMM))
}

// seriesFlow solves pressure − zero flow = R·Q + viscous·Q + turbulent·Q² for the dilated bed and keeps the resting
// flow as long as the dilated bed allows.
func seriesFlow(k drop, pressure float64, bed Bed) Flow {
	drive := pressure - bed.ZeroFlowMMHg
	if math.IsInf(k.Viscous, 1) {
		return Flow{Reserve: 1, DistalShare: bed.ZeroFlowMMHg / pressure}
	}
	r := drive/(bed.RestMLPerS*bed.Dilation) + k.Viscous
	q := 2 * drive / (r + math.Sqrt(r*r+4*k.Turbulent*drive))
	f := Flow{RestMLPerS: math.Min(bed.RestMLPerS, q), DilatedMLPerS: q}
	f.Reserve = f.DilatedMLPerS / f.RestMLPerS
	f.DistalShare = (pressure - k.Viscous*q - k.Turbulent*q*q) / pressure
	return f
}
