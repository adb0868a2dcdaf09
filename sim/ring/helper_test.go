package ring

import (
	"strconv"

	"annuloscope/sim/ring/specimen"
)

// inputFrom turns a specimen into an Input with the default constants.
func inputFrom(s specimen.Shape) *Input {
	b := s.Build()
	return &Input{
		Annulus:   Annulus{Rest: b.Annulus, Fibrous: b.Fibrous},
		Vein:      Vein{Rest: b.Vein, Station: b.Station, OnAtrium: b.OnAtrium, Partner: b.Partner, Distance: b.Distance, Elevation: b.Elevation},
		Constants: Default(),
	}
}

// banded adds a band between 8 mm from the ostium and the given share of the vein.
func banded(in *Input, shortening float64) *Input {
	st := in.Vein.Station
	in.Band = &Band{ProximalMM: 8, DistalMM: 0.8 * st[len(st)-1], ShorteningMM: shortening}
	return in
}

// bandAt80 pulls a band between fixed stations, for studies that change the number of points.
func bandAt80(in *Input, shortening float64) {
	in.Band = &Band{ProximalMM: 8, DistalMM: 80, ShorteningMM: shortening}
}

// number prints a figure to three digits.
func number(x float64) string { return strconv.FormatFloat(x, 'g', 3, 64) }

func abs(x float64) float64 { return max(x, -x) }
