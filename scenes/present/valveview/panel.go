package valveview

import (
	"fmt"
	"math"

	"annuloscope/scenes/present/tell"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
)

// main is the two repairs and the main anatomy.
func (v *View) main(x, y, width float64) float64 {
	d := v.d
	y = d.Gap(x, d.Band(x, y, width, "shortening_mm", "proximal_mm", "distal_mm"), width)
	y = d.Gap(x, d.Clip(x, y, width), width)
	y = d.Gap(x, d.Anatomy(x, y, width, "anatomy/annulus.septal_lateral_mm", "group/elevation", "group/distance", "anatomy/artery.separation_mm"), width)
	return d.Leaflets(x, y, width)
}

// more is the rest of the two repairs, all other repairs, and every number of the patient.
func (v *View) more(x, y, width float64) float64 {
	u, w, d := v.d.U, v.d.W(), v.d
	y += u.Para(x, y, width, w.T("heading.repairs"), theme.Body, true, u.T.Ink) + u.S(4)
	for _, spec := range repair.Specs() {
		refs := []string{string(spec.Kind)}
		if spec.Kind == repair.EdgeClip {
			for n := 2; n <= 3; n++ {
				if ref := fmt.Sprintf("edge-clip#%d", n); d.S.Placed(ref) {
					refs = append(refs, ref)
				}
			}
		}
		for _, ref := range refs {
			on := d.S.Placed(ref)
			y += u.Switch("place/"+ref, x, y, width, tell.RepairName(w, ref), on, true)
			if on {
				for _, p := range spec.Parameters {
					y += d.Knob(x, y, width, "repair/"+ref+"/"+p.Key)
				}
			}
			y = d.Gap(x, y, width)
		}
		if spec.Kind == repair.EdgeClip && d.S.Placed("edge-clip") && len(refs) < 3 {
			label := w.T("button.clip.add")
			f := flow(u, x, y, width)
			u.Button("clip/add", f.Next(label), label, "", 0, false)
			y += f.Height() + u.S(8)
		}
	}
	y += u.Para(x, y, width, w.T("heading.patient"), theme.Body, true, u.T.Ink) + u.S(4)
	for _, c := range anatomy.Choices() {
		name := w.Table("choice."+c.Path, c.Meaning)
		y += u.Para(x, y, width, name, theme.Body, false, u.T.Ink) + u.S(2)
		at := -1
		var options []string
		for i, o := range c.Options {
			options = append(options, w.Table("option."+o, o))
			if o == *c.At(&d.S.Case.Patient) {
				at = i
			}
		}
		y += u.Options("choice/"+c.Path, x, y, width, name, options, at) + u.S(10)
	}
	for _, q := range anatomy.Parameters() {
		if math.IsNaN(*q.At(&d.S.Case.Patient)) {
			continue
		}
		y += d.Knob(x, y, width, "anatomy/"+q.Path)
	}
	return y
}
