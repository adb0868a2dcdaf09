package valve

import (
	"annuloscope/sim/beat"

	"gonum.org/v1/gonum/spatial/r3"
)

// Scene is the geometry of a solve in millimetres in the valve's frame, before and after.
type Scene struct{ Before, After Shapes }

// Shapes is the geometry of one state.
type Shapes struct {
	Annulus         []r3.Vec // mid-systole, equal arc length, from φ = 0 counter-clockwise seen from the atrium
	AnnulusDiastole []r3.Vec
	Intertrigone    []bool // which annulus points are the nearly rigid part

	Vein        []r3.Vec // centreline from the mouth
	VeinRadius  []float64
	VeinStation []float64
	VeinContact []float64 // N/mm pressed on the vein wall by a band or by rods
	Covered     []bool    // where the vein lies on the atrium

	// The vein unrolled against the annulus of the same state, by VeinStation.
	VeinDistance  []float64 // outward from the annulus, mm
	VeinElevation []float64 // above the annulus towards the atrium, mm
	VeinPhiDeg    []float64 // angle φ of the annulus point it lies beside
	VeinPush      []float64 // N/mm of a device towards the annulus; negative: outward; empty without a device
	VeinAnchor    []float64 // outward push of the anchors, N/mm; 0 where there is none

	Vessels []VesselShape // the circumflex, then the branches that are stated

	Artery        []r3.Vec // the circumflex, from its origin on the anterolateral side
	ArteryRadius  []float64
	ArteryNarrow  []float64 // worst-view narrowing, %
	ArteryStation []float64 // nearest sinus station
	Band          []r3.Vec  // a device in or on the annulus or vein; empty when there is none
	Anchors       []r3.Vec

	Stations []Station // closed leaflets, anterolateral first
	Orifices []Orifice // open leaflets in mid-diastole

	Papillary [2]r3.Vec // anterolateral, posteromedial

	Beat *Beats // nil in the quick tier

	Shell *ShellShapes // the leaflets in three dimensions; nil where the shell has not been solved
}

// Station is one section of the closed leaflets.
type Station struct {
	S                   float64  // position along the line
	Anterior, Posterior []r3.Vec // annulus to margin
	ContactMM, GapMM    float64
	LeakMM              float64 // width of the leak there: orifice per mm of line, mm
	Junction            r3.Vec
}

// Orifice is one opening seen from the atrium.
type Orifice struct {
	Outline []r3.Vec // closed
	AreaCM2 float64  // anatomic
	Centre  r3.Vec
}

// Beats is one heart beat of a state: waves and the times of the valves.
type Beats struct {
	Waves  beat.Waves
	Phases beat.Phases
}

// beatsOf copies a result out of its workspace.
func beatsOf(r *beat.Result) *Beats {
	w := r.Waves
	for _, p := range []*[]float64{&w.Time, &w.LV, &w.LA, &w.Aorta, &w.PulmonaryArtery, &w.LVVolume, &w.LAVolume, &w.MitralForward,
		&w.LeakFlow, &w.AorticFlow, &w.PulmonaryVenousFlow, &w.LVElastance, &w.LeakArea} {
		*p = append([]float64(nil), *p...)
	}
	return &Beats{Waves: w, Phases: r.Phases}
}
