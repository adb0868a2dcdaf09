package valve

import (
	"fmt"
	"math"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

// Variation is what one change does to a sinus band in a whole case: the fall of the septal-lateral diameter, tension,
// transmitted fraction, leak and narrowing of the artery after treatment.
type Variation struct {
	Name                string  `json:"name"`
	SeptalLateralMM     float64 `json:"septal_lateral_mm"`
	TensionN            float64 `json:"tension_n"`
	TransmittedFraction float64 `json:"transmitted_fraction"`
	OrificeCM2          float64 `json:"effective_orifice_cm2"`
	NarrowingPct        float64 `json:"worst_view_narrowing_pct"`
	Status              string  `json:"status"`
	Engine              string  `json:"engine"` // that closed the leaflets
}

// Sensitivity changes one thing at a time in a case with the default sinus band alone: offset, elevation, cover, anchor
// stations, grip, artery, arterial pressure. A change that the case cannot take (out of a range, off the vein) is left out.
// The tissue's stiffness is varied in package calibrate. o chooses the engine of the leaflets and the tier. The error is that of Solve for the case itself.
func Sensitivity(c casefile.Case, o Options) ([]Variation, error) {
	c = c.Clone()
	c.Repairs = []repair.Step{repair.Must(repair.SinusBand)}
	if most := math.Floor(c.Patient.Sinus.LengthMM - 6); c.Repairs[0].Value("distal_mm") > most {
		c.Repairs[0] = c.Repairs[0].With("distal_mm", most)
	}
	base, err := varied("as it is", c, o)
	if err != nil {
		return nil, err
	}
	out := []Variation{base}
	for _, v := range variations {
		q := c.Clone()
		if !v.change(&q) || q.Validate() != nil {
			continue
		}
		got, err := varied(v.name, q, o)
		if err != nil {
			got = Variation{Name: v.name, Status: err.Error()}
		}
		out = append(out, got)
	}
	return out, nil
}

func varied(name string, c casefile.Case, o Options) (Variation, error) {
	r, err := Solve(c, o)
	if err != nil {
		return Variation{}, err
	}
	return Variation{name, r.Before.Annulus.SeptalLateralMM - r.After.Annulus.SeptalLateralMM, r.After.Sinus.TensionN, r.After.Sinus.TransmittedFraction,
		float64(r.After.Regurgitation.EffectiveOrificeCM2), r.After.Artery.WorstViewNarrowing, r.Provenance.Status, r.Provenance.Engine}, nil
}

type variation struct {
	name   string
	change func(*casefile.Case) bool
}

var variations = concatVariations(
	shifted("distance of the vein", "mm", 4, "sinus.distance.mouth_mm", "sinus.distance.middle_mm", "sinus.distance.distal_mm"),
	shifted("elevation of the vein", "mm", 4, "sinus.elevation.mouth_mm", "sinus.elevation.middle_mm", "sinus.elevation.distal_mm"),
	shifted("end of the cover", "mm", 10, "sinus.cover_to_mm"),
	turned("near anchor", "mm", 6, "proximal_mm"),
	turned("far anchor", "mm", 6, "distal_mm"),
	turned("shortening", "mm", 5, "shortening_mm"),
	shifted("soft tissue over the artery", "mm", 1, "artery.separation_mm"),
	shifted("mean arterial pressure", "mmHg", 20, "heart.mean_arterial_mmhg"),
)

func concatVariations(groups ...[]variation) (all []variation) {
	for _, g := range groups {
		all = append(all, g...)
	}
	return all
}

// shifted moves patient numbers together, down and up.
func shifted(name, unit string, by float64, paths ...string) (out []variation) {
	for _, d := range []float64{-by, by} {
		out = append(out, variation{fmt.Sprintf("%s %+g %s", name, d, unit), func(c *casefile.Case) bool {
			for _, path := range paths {
				q, ok := anatomy.Find(path)
				if !ok || c.Patient.Set(path, *q.At(&c.Patient)+d) != nil {
					return false
				}
			}
			return true
		}})
	}
	return out
}

// turned moves one number of the band, down and up.
func turned(name, unit string, by float64, key string) (out []variation) {
	for _, d := range []float64{-by, by} {
		out = append(out, variation{fmt.Sprintf("%s %+g %s", name, d, unit), func(c *casefile.Case) bool {
			return c.Repairs[0].Set(key, c.Repairs[0].Value(key)+d) == nil
		}})
	}
	return out
}
