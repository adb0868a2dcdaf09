package valve

import (
	"fmt"
	"math"

	"annuloscope/geometry"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/fault"
	"annuloscope/sim/ring"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	annulusNodes = 128 // nodes of the ring
	veinNodes    = 90  // nodes of the vein, mouth to interventricular vein

	// Where along the vein the three values of an anatomy.Triple hold, as shares of its length, and how the vein leaves
	// the groove beyond the last of them. Chosen: P2 lies about half-way along the covered stretch.
	middleShare, distalShare = 0.42, 0.80
	leaveDistanceMM          = 4.0
	leaveElevationMM         = 1.5
	archShare                = 0.28 // the arch is highest at the second of six stations (anatomy.md S66)

	bandRadiusMM     = 1.0 // of the tether inside the vein; chosen
	coverSoftMM      = 2.0 // over which the vein leaves the atrium; chosen
	dilationShare    = 0.5 // commissural gain per mm of septal-lateral gain (S44: +9 % against +25 %)
	diastolicHeight  = 0.8 // saddle height in diastole over systole (S03: 10.6 against 13.5 %)
	fibrousSoftShare = 0.01
)

// shape is the patient's geometry at rest, before any repair.
type shape struct {
	annulus       *geometry.Annulus // the state before treatment, mid-systole
	baseline      []r3.Vec          // as measured: without the dilation since
	rest          []r3.Vec          // before treatment
	restDiastole  []r3.Vec
	marks         geometry.Marks
	marksDiastole geometry.Marks
	fibrous       []float64
	intertrigone  []bool
	vein          ring.Vein
	veinRadius    []float64
	stretch       float64 // station per mm of the smooth path: tortuosity
}

func annulusShape(p *anatomy.Patient, dilation float64) geometry.AnnulusShape {
	a := p.Sized()
	return geometry.AnnulusShape{
		SeptalLateralMM: a.SeptalLateralMM + dilation, CommissuralMM: a.CommissuralMM + dilationShare*dilation,
		HeightMM: a.HeightMM, IntertrigoneShare: a.IntertrigoneShare,
	}
}

func newShape(p *anatomy.Patient) (*shape, error) {
	before := annulusShape(p, p.Annulus.DilationMM)
	ann, err := geometry.NewAnnulus(before)
	if err != nil {
		return nil, &fault.Field{Path: "annulus", Problem: err.Error(), Fix: "change the annulus numbers"}
	}
	s := &shape{annulus: ann, rest: ann.CurveTo(make([]r3.Vec, annulusNodes)), marks: ann.MarksOf(annulusNodes)}
	s.baseline = s.rest
	if p.Annulus.DilationMM != 0 {
		if err := annulusShape(p, 0).Validate(); err != nil {
			return nil, &fault.Field{Path: "annulus", Problem: err.Error(), Fix: "change the annulus numbers"}
		}
		s.baseline = annulusShape(p, 0).Curve(annulusNodes)
	}
	k := p.Annulus.DiastolicScale
	open := before
	open.SeptalLateralMM, open.CommissuralMM, open.HeightMM = k*before.SeptalLateralMM, k*before.CommissuralMM, diastolicHeight*before.HeightMM
	openAnn, err := geometry.NewAnnulus(open)
	if err != nil {
		return nil, &fault.Field{Path: "annulus.diastolic_scale", Value: fmt.Sprint(k), Problem: err.Error(), Fix: "change the annulus numbers"}
	}
	s.restDiastole, s.marksDiastole = openAnn.CurveTo(make([]r3.Vec, annulusNodes)), openAnn.MarksOf(annulusNodes)
	s.markFibrous()
	return s, s.placeVein(p)
}

// markFibrous weighs each node by how much of it lies between the trigones, with a soft edge of a hundredth of the
// perimeter so that nothing jumps when the share changes.
func (s *shape) markFibrous() {
	n, length := len(s.rest), s.annulus.LengthMM()
	marks := s.annulus.Landmarks()
	from, to := marks.PosteromedialTrigone.ArcMM, marks.AnterolateralTrigone.ArcMM
	s.fibrous, s.intertrigone = make([]float64, n), make([]bool, n)
	for i := range s.fibrous {
		arc := length * float64(i) / float64(n)
		s.fibrous[i] = softBox(arc, from, to, fibrousSoftShare*length)
		s.intertrigone[i] = s.annulus.Intertrigone(arc)
	}
}

// softBox is 1 between from and to and 0 outside, with logistic edges of the given width.
func softBox(x, from, to, width float64) float64 {
	return 1 / (1 + math.Exp((from-x)/width)) / (1 + math.Exp((x-to)/width))
}

// placeVein winds the vein round the annulus by distance and elevation.
func (s *shape) placeVein(p *anatomy.Patient) error {
	v := p.Sinus
	s.stretch = 1 + v.Tortuosity
	length := v.LengthMM / s.stretch
	arch := func(share float64) float64 {
		d := (share - archShare) / 0.15
		return v.ArchMM * math.Exp(-d*d/2)
	}
	station := func(share, distance, elevation float64) geometry.Station {
		return geometry.Station{MM: share * length, DistanceMM: distance + p.LeakDistanceMM(), ElevationMM: elevation + arch(share)}
	}
	between := func(a, b, t float64) float64 { return a + t*(b-a) }
	d, e := v.DistanceMM, v.ElevationMM
	line, err := geometry.WindBeside(s.annulus, v.MouthDeg*math.Pi/180, true, []geometry.Station{
		station(0, d.Mouth, e.Mouth),
		station(archShare, between(d.Mouth, d.Middle, archShare/middleShare), between(e.Mouth, e.Middle, archShare/middleShare)),
		station(middleShare, d.Middle, e.Middle),
		station(distalShare, d.Distal, e.Distal),
		station(1, d.Distal+leaveDistanceMM, e.Distal+leaveElevationMM),
	}, veinNodes)
	if err != nil {
		return &fault.Field{Path: "sinus", Problem: err.Error(), Fix: "bring the three distances and elevations nearer together"}
	}
	n := len(line.Points)
	s.vein = ring.Vein{Rest: line.Points, Station: make([]float64, n), OnAtrium: make([]float64, n), Partner: make([]float64, n),
		Distance: make([]float64, n), Elevation: line.ElevationMM, Clearance: make([]float64, n)}
	s.veinRadius = make([]float64, n)
	perimeter := s.annulus.LengthMM()
	for i := range line.Points {
		at := line.StationMM[i] * s.stretch
		s.vein.Station[i] = at
		s.vein.OnAtrium[i] = softBox(at, v.CoverFromMM, v.CoverToMM, coverSoftMM)
		arc := s.annulus.ArcOf(math.Mod(line.Phi[i]+4*math.Pi, 2*math.Pi))
		s.vein.Partner[i] = math.Mod(arc/perimeter*annulusNodes, annulusNodes)
		s.vein.Distance[i] = math.Max(0, line.DistanceMM[i])
		s.veinRadius[i] = s.radiusAt(p, at)
		s.vein.Clearance[i] = math.Max(0, s.veinRadius[i]-bandRadiusMM)
	}
	return nil
}

// radiusAt runs through the three diameters, straight between them and level beyond the last.
func (s *shape) radiusAt(p *anatomy.Patient, station float64) float64 {
	share, d := station/p.Sinus.LengthMM, p.Sinus.DiameterMM
	switch {
	case share < middleShare:
		t := share / middleShare
		return 0.5 * (d.Mouth + t*(d.Middle-d.Mouth))
	case share < distalShare:
		t := (share - middleShare) / (distalShare - middleShare)
		return 0.5 * (d.Middle + t*(d.Distal-d.Middle))
	}
	return 0.5 * d.Distal
}
