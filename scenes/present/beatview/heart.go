package beatview

import "annuloscope/scenes/present/theme"

// heartKnobs change what the heart does since it was measured; heartNumbers answer.
var (
	heartKnobs   = []string{"anatomy/heart.rate_change_per_min", "anatomy/heart.exercise", "anatomy/heart.adaptation"}
	heartNumbers = []string{"opening.mean_gradient_mmhg", "beat.forward_sv_ml", "regurgitation.volume_ml", "beat.la_mean_mmhg", "beat.la_v_mmhg", "beat.edv_ml"}
)

// heart is how the heart is loaded: rate, effort, years with the leak, unloading, and the numbers that follow.
func (v *View) heart(x, y, width float64) float64 {
	u, w := v.d.U, v.d.W()
	y += u.Para(x, y, width, w.T("heart.intro"), theme.Small, false, u.T.Soft) + u.S(8)
	for _, id := range heartKnobs {
		y += v.d.Knob(x, y, width, id)
	}
	y = v.d.Gap(x, y, width)
	y += u.Switch("place/unloading", x, y, width, w.Table("repair.unloading", "Unloading"), v.d.S.Placed("unloading"), true) + u.S(2)
	for _, key := range []string{"resistance_pct", "volume_pct"} {
		y += v.d.Knob(x, y, width, "repair/unloading/"+key)
	}
	y = v.d.Gap(x, y, width)
	return v.numbers(x, y, width, heartNumbers) + u.S(12)
}
