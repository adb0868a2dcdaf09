package leaflet

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Phase says which way the pressure pushes.
type Phase int

// Systole pushes towards the atrium and closes the valve; Diastole pushes outwards and opens it.
const (
	Systole Phase = iota
	Diastole
)

// Side names a leaflet.
type Side int

// The two leaflets.
const (
	Anterior Side = iota
	Posterior
)

// Index of a papillary tip.
const (
	Anterolateral = iota // x < 0
	Posteromedial        // x > 0
)

// Anatomy is what a patient keeps whatever the annulus does: the rest shape of the tissue and the lengths of the
// chords, both implied by a rest annulus. All lengths in mm. Start from NewAnatomy.
type Anatomy struct {
	RestAnnulus []r3.Vec // closed loop, counter-clockwise from the posteromedial commissure, at least 16 points

	AnteriorMM, PosteriorMM, CommissureMM float64 // rest length from annulus to margin at A2, P2, commissures
	MarginX, MarginY                      float64 // margin loop of the hanging rest shape as a fraction of the annulus
	Growth                                float64 // factor on the rest lengths; 1 is none

	RestTips      [2]r3.Vec // papillary tips when the chords were cut to length
	ChordSlackMM  float64   // marginal chords longer than tip-to-target by this
	BasalSlackMM  float64   // basal chords likewise
	LineDepthMM   float64   // target of the margin, closed: z = −LineDepth + LineRise·s²
	LineRiseMM    float64
	LineYMM       float64 // y = LineY + LineBend·s²
	LineBendMM    float64
	LineHalfMM    float64 // x = s·LineHalf
	ChordNPerMM   float64 // stiffness of one of the 48 marginal chords
	MembraneScale float64 // factor on the membrane law; 1 is the tabulated tissue
}

// Bond is a clip or a stitch that holds both leaflets together.
type Bond struct {
	S       float64 // position of its middle along the line, −1 to 1
	WidthMM float64 // along the margin
	ReachMM float64 // from the margin towards the annulus
	Hold    float64 // 0 (slipped) to 1 (holds)
}

// ChordChange lengthens or cuts the marginal chords of one leaflet within WidthMM (rest length along the margin)
// centred at S.
type ChordChange struct {
	Leaflet   Side
	S         float64
	WidthMM   float64
	LengthMM  float64 // added length; negative shortens
	Ruptured  bool    // true cuts; LengthMM is then ignored
	WithBasal bool    // the basal chords of the same range too
}

// StiffPatch multiplies membrane and bending stiffness by Factor for rows FromV to ToV within WidthMM (rest length
// along the margin) centred at S.
type StiffPatch struct {
	Leaflet    Side
	S          float64
	WidthMM    float64
	FromV, ToV float64
	Factor     float64
}

// Input is one state to solve.
type Input struct {
	Anatomy
	Annulus      []r3.Vec  // present loop; point i is the same tissue as RestAnnulus[i]
	Tips         [2]r3.Vec // present papillary tips: Anterolateral, Posteromedial
	PressureNMM2 float64   // difference across the leaflets, not negative
	Phase        Phase
	Bonds        []Bond
	Chords       []ChordChange
	Patches      []StiffPatch
}

// EllipseAnnulus is a saddle for trials: diameters along y (sl) and x (ic) and height, mm, n points, high at A2 and P2,
// starting at the posteromedial commissure.
func EllipseAnnulus(sl, ic, height float64, n int) []r3.Vec {
	loop := make([]r3.Vec, n)
	for i := range loop {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		loop[i] = r3.Vec{X: ic / 2 * cos, Y: sl / 2 * sin, Z: -height / 2 * (cos*cos - sin*sin)}
	}
	return loop
}

// NewAnatomy gives the default tissue on a rest annulus: the lengths of constants.go, the closed line scaled with the
// size of the annulus (28 × 38 mm: unscaled).
func NewAnatomy(rest []r3.Vec) Anatomy {
	var yMin, yMax, xMin, xMax float64
	for _, p := range rest {
		yMin, yMax = math.Min(yMin, p.Y), math.Max(yMax, p.Y)
		xMin, xMax = math.Min(xMin, p.X), math.Max(xMax, p.X)
	}
	fy, fx := (yMax-yMin)/defaultSL, (xMax-xMin)/defaultIC
	return Anatomy{
		RestAnnulus: rest,
		AnteriorMM:  defaultAnterior, PosteriorMM: defaultPosterior, CommissureMM: defaultCommissure,
		MarginX: defaultMarginX, MarginY: defaultMarginY, Growth: 1,
		RestTips: [2]r3.Vec{
			{X: -defaultTipX * fx, Y: defaultTipY * fy, Z: defaultTipZ},
			{X: defaultTipX * fx, Y: defaultTipY * fy, Z: defaultTipZ},
		},
		ChordSlackMM: defaultChordSlack, BasalSlackMM: defaultBasalSlack,
		LineDepthMM: defaultLineDepth, LineRiseMM: defaultLineRise,
		LineYMM: defaultLineY * fy, LineBendMM: defaultLineBend * fy, LineHalfMM: defaultLineHalf * fx,
		ChordNPerMM: chordStiffness, MembraneScale: 1,
	}
}

// NewInput is the closed valve of a patient at 120 mmHg, annulus and tips as at rest.
func NewInput(a Anatomy) Input {
	return Input{Anatomy: a, Annulus: a.RestAnnulus, Tips: a.RestTips, PressureNMM2: defaultSystolicPressure, Phase: Systole}
}

// Validate reports every field outside its range.
func (in *Input) Validate() error {
	var errs []error
	check := func(name string, v, low, high float64) {
		if !(v >= low && v <= high) { // also refuses NaN
			errs = append(errs, fmt.Errorf("leaflet: %s is %g, allowed %g to %g; choose a value in that range", name, v, low, high))
		}
	}
	loop := func(name string, pts []r3.Vec) {
		if len(pts) < 16 {
			errs = append(errs, fmt.Errorf("leaflet: %s has %d points, allowed 16 or more; sample the loop more finely", name, len(pts)))
			return
		}
		for i, p := range pts {
			if !(r3.Norm(p) < 200) {
				errs = append(errs, fmt.Errorf("leaflet: %s[%d] is %v, allowed within 200 mm of the origin; check its frame and unit", name, i, p))
				return
			}
		}
		if q := len(pts) / 4; !(pts[0].X > 0 && pts[q].Y > 0 && pts[2*q].X < 0 && pts[3*q].Y < 0) {
			errs = append(errs, fmt.Errorf("leaflet: %s does not run counter-clockwise from the posteromedial commissure (+x); reorder it", name))
		}
	}
	loop("RestAnnulus", in.RestAnnulus)
	loop("Annulus", in.Annulus)
	if len(in.Annulus) != len(in.RestAnnulus) {
		errs = append(errs, fmt.Errorf("leaflet: Annulus has %d points, RestAnnulus %d; allowed equal; sample both alike",
			len(in.Annulus), len(in.RestAnnulus)))
	}
	check("AnteriorMM", in.AnteriorMM, 8, 60)
	check("PosteriorMM", in.PosteriorMM, 5, 60)
	check("CommissureMM", in.CommissureMM, 3, 40)
	check("MarginX", in.MarginX, 0.5, 1.5)
	check("MarginY", in.MarginY, 0.5, 1.5)
	check("Growth", in.Growth, 0.5, 2)
	check("ChordNPerMM", in.ChordNPerMM, 0.1, 50)
	check("MembraneScale", in.MembraneScale, 0.1, 10)
	check("ChordSlackMM", in.ChordSlackMM, -10, 30)
	check("BasalSlackMM", in.BasalSlackMM, -10, 30)
	check("LineDepthMM", in.LineDepthMM, -10, 60)
	check("LineRiseMM", in.LineRiseMM, -30, 30)
	check("LineYMM", in.LineYMM, -40, 40)
	check("LineBendMM", in.LineBendMM, -40, 40)
	check("LineHalfMM", in.LineHalfMM, 5, 50)
	check("PressureNMM2", in.PressureNMM2, 0, 0.06)
	check("Phase", float64(in.Phase), 0, 1)
	check("Tips[Anterolateral] distance from the origin", r3.Norm(in.Tips[Anterolateral]), 0, 150)
	check("Tips[Posteromedial] distance from the origin", r3.Norm(in.Tips[Posteromedial]), 0, 150)
	check("RestTips[Anterolateral] distance from the origin", r3.Norm(in.RestTips[Anterolateral]), 0, 150)
	check("RestTips[Posteromedial] distance from the origin", r3.Norm(in.RestTips[Posteromedial]), 0, 150)
	for i, b := range in.Bonds {
		name := fmt.Sprintf("Bonds[%d].", i)
		check(name+"S", b.S, -1, 1)
		check(name+"WidthMM", b.WidthMM, 0.5, 20)
		check(name+"ReachMM", b.ReachMM, 0.5, 15)
		check(name+"Hold", b.Hold, 0, 1)
	}
	for i, c := range in.Chords {
		name := fmt.Sprintf("Chords[%d].", i)
		check(name+"Leaflet", float64(c.Leaflet), 0, 1)
		check(name+"S", c.S, -1, 1)
		check(name+"WidthMM", c.WidthMM, 0, 100)
		check(name+"LengthMM", c.LengthMM, -10, 30)
	}
	for i, p := range in.Patches {
		name := fmt.Sprintf("Patches[%d].", i)
		check(name+"Leaflet", float64(p.Leaflet), 0, 1)
		check(name+"S", p.S, -1, 1)
		check(name+"WidthMM", p.WidthMM, 0, 100)
		check(name+"FromV", p.FromV, 0, 1)
		check(name+"ToV", p.ToV, p.FromV, 1)
		check(name+"Factor", p.Factor, 0.1, 50)
	}
	return errors.Join(errs...)
}
