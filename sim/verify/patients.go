package verify

import (
	"fmt"

	"annuloscope/sim/beat"
	"annuloscope/sim/hydraulic"
	"annuloscope/sim/orifice"
	"annuloscope/sim/units"
)

// patients compares edge repair with cohorts.
func patients() []Row {
	s := &sheet{group: "A3 edge repair in patients", source: "physics.md A3, "}
	// The source gives no flows; assumed for severe leak: 72/min, before 60 mL forward + 45 mL leak, after 70 + 20 mL.
	for _, c := range []struct{ area, forward, leak, mean, sd float64 }{{6.0, 60, 45, 1.7, 0.9}, {3.6, 70, 20, 4.1, 2.2}} {
		f := hydraulic.Fill(hydraulic.FillingInput{Opening: units.AnatomicCM2(c.area).Effective(hydraulic.Contraction), ForwardML: c.forward,
			LeakML: c.leak, FillingS: hydraulic.FillingTime(72)})
		s.add(Published, fmt.Sprintf("mean gradient at %g cm² anatomic (flows assumed)", c.area), "mmHg", c.mean, f.MeanGradientMMHg, c.sd, "S2")
	}
	opening := func(chord, intact float64, at ...float64) float64 {
		in := orifice.Input{CommissuralMM: chord, SeptalLateralMM: 32, MarginMM: 2.84 * chord, Intact: units.AnatomicCM2(intact)}
		for _, p := range at {
			in.Bonds = append(in.Bonds, orifice.Bond{Position: p, WidthMM: 5, Hold: 1})
		}
		r, err := orifice.Solve(in)
		if err != nil {
			panic("verify: " + err.Error())
		}
		return float64(r.Total)
	}
	s.add(Published, "opening left of 6.0 cm² by one central clip of 5 mm", "cm²", 3.6, opening(43, 6, 0), 1.2, "S2")
	s.band(Published, "share of the opening kept by one clip", "1", 0.4, 0.7, opening(43, 6, 0)/6, "S2")
	s.band(Published, "the same with two clips", "1", 0.4, 0.7, opening(43, 6, -0.15, 0.15)/6, "S2")
	s.band(Practice, "share kept by one clip of 5.0 cm² in 39 mm (rule of thumb 5 to 3.5 cm²)", "1", 0.6, 0.8, opening(39, 5, 0)/5, "reading of A4")
	normal := hydraulic.Fill(hydraulic.FillingInput{Opening: units.AnatomicCM2(5).Effective(hydraulic.Contraction), ForwardML: 80, FillingS: hydraulic.FillingTime(65)})
	s.add(Published, "early speed of a normal valve, formula tier", "cm/s", 77.7, normal.EarlySpeedCMPS, 14.8, "")
	s.from("physics.md H, S54")
	s.add(Published, "late speed of a normal valve, formula tier", "cm/s", 59.2, normal.AtrialSpeedCMPS, 13.9, "")
	s.from("physics.md H, S54")
	return s.rows
}

// beats compares the program's circulation with the bands of physics.md H.
func beats() []Row {
	s := &sheet{group: "H pressures and filling", source: "physics.md H, "}
	solve := func(p beat.Params) beat.Result {
		r, err := beat.Solve(p)
		if err != nil {
			panic("verify: " + err.Error())
		}
		return r
	}
	r := solve(beat.Resting())
	s.band(Secondary, "atrial mean at rest", "mmHg", 6, 12, r.LAMeanMMHg, "S48")
	s.band(Published, "ventricular end-diastolic pressure", "mmHg", 4, 12, r.LVEDPMMHg, "S49")
	s.band(Memory, "a wave", "mmHg", 4, 16, r.LAAWaveMMHg, "textbook")
	s.band(Memory, "v wave", "mmHg", 6, 21, r.LAVWaveMMHg, "textbook")
	s.band(Secondary, "aortic systolic", "mmHg", 100, 140, r.AorticSystolic, "S48")
	s.band(Secondary, "aortic diastolic", "mmHg", 70, 90, r.AorticDiastolic, "S48")
	s.band(Secondary, "ventricular systolic", "mmHg", 100, 140, r.LVPeakMMHg, "S48")
	s.add(Published, "early wave", "cm/s", 77.7, r.EWaveCMS, 14.8, "S54")
	s.add(Published, "late wave", "cm/s", 59.2, r.AWaveCMS, 13.9, "S54")
	s.add(Published, "early over late wave", "1", 1.39, r.EWaveCMS/r.AWaveCMS, 0.46, "S54")
	s.add(Published, "isovolumic relaxation", "ms", 94.6, 1000*r.IVRTS, 14.6, "S54")
	s.add(Published, "deceleration of the early wave", "ms", 200, 1000*r.EDecelerationS, 40, "S55")
	s.add(Published, "filling time", "ms", 545, 1000*r.FillingS, 130, "S55")
	s.exact("departure of the total volume over the beat", "mL", 0, r.ConservationErrorML, 1e-6, "conservation")
	acute, chronic := solve(beat.AcuteLeak()), solve(beat.ChronicLeak())
	s.add(Published, "acute severe leak, atrial mean", "mmHg", 24.1, acute.LAMeanMMHg, 15, "S51")
	s.add(Published, "acute severe leak, v wave", "mmHg", 41.2, acute.LAVWaveMMHg, 15, "S51")
	s.add(Published, "chronic severe leak, atrial mean", "mmHg", 17.9, chronic.LAMeanMMHg, 15, "S51")
	s.add(Published, "chronic severe leak, v wave", "mmHg", 32.0, chronic.LAVWaveMMHg, 15, "S51")
	s.add(Published, "pure leak with a large v wave, v", "mmHg", 46, acute.LAVWaveMMHg, 8, "S50")
	s.add(Published, "pure leak with a large v wave, mean", "mmHg", 26, acute.LAMeanMMHg, 8, "S50")
	s.group, s.source = "C3 stages of the leak", "physics.md C3, "
	s.add(Published, "acute leak, total stroke", "mL", 140, acute.TotalStrokeML, 14, "S32")
	s.add(Published, "chronic leak, total stroke", "mL", 190, chronic.TotalStrokeML, 19, "S32")
	s.add(Memory, "acute leak, end-diastolic volume", "mL", 170, acute.EDVML, 17, "S32")
	s.add(Memory, "chronic leak, end-diastolic volume", "mL", 240, chronic.EDVML, 24, "S32")
	return s.rows
}
