package measured

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"annuloscope/geometry/contour"
	"annuloscope/geometry/meshio"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// Input is what was measured. All curves share one frame and one unit.
type Input struct {
	Annulus       meshio.Polyline
	Sinus, Artery *meshio.Polyline // nil: not measured; the artery needs the sinus
	Unit          Unit             // Auto finds it from the size of the annulus
	Landmarks     contour.Given    // in the frame and unit of the points; nil fields are found
	Base          casefile.Case    // gives what the curves do not say, and its repairs
}

// Residual tells how far one curve lies from another.
type Residual struct {
	Curve, From  string
	Points       int
	RMSMM, MaxMM float64
}

// Result is an import.
type Result struct {
	Case      casefile.Case
	Unit      Unit     // never Auto
	Found     []string // what was found rather than given: the unit, landmarks
	Residuals []Residual
	Warnings  []string
}

// Import makes a case. An error about the points is a *fault.Field that names the curve and the fix, or the number of the
// case that came out beyond what the program models.
func Import(in Input) (Result, error) {
	if in.Artery != nil && in.Sinus == nil {
		return Result{}, &fault.Field{Path: "artery", Problem: "cannot be placed without the sinus", Allowed: "an artery together with a sinus",
			Fix: "give the centreline of the sinus as well"}
	}
	unit, found, err := unitOf(in)
	if err != nil {
		return Result{}, err
	}
	r := Result{Case: in.Base.Clone(), Unit: unit}
	if found {
		r.Found = append(r.Found, "unit "+string(unit))
	}
	p := &r.Case.Patient
	p.Imported = true
	ring, err := contour.FitAnnulus(in.Annulus.Points, contour.Options{Scale: unit.Scale(), Landmarks: in.Landmarks,
		KeepOrder: ordered(in.Annulus, true)})
	if err != nil {
		return Result{}, bad("annulus", err)
	}
	r.Found = append(r.Found, ring.Found...)
	r.warn("annulus", ring.Warnings)
	r.add("annulus points", "their fitted curve", ring.Residuals)
	readAnnulus(p, &ring)
	var vein *course
	if in.Sinus != nil {
		if vein, err = r.readSinus(in, &ring); err != nil {
			return Result{}, err
		}
	}
	if in.Artery != nil {
		if err := r.readArtery(in, &ring, vein); err != nil {
			return Result{}, err
		}
	}
	keepOnVein(&r.Case)
	round(p, &in.Base.Patient)
	if err := r.Case.Validate(); err != nil {
		return Result{}, beyond(err)
	}
	return r, r.compare(&ring, vein)
}

func readAnnulus(p *anatomy.Patient, ring *contour.Annulus) {
	p.Annulus.SeptalLateralMM = ring.Measures.SeptalLateralMM
	p.Annulus.CommissuralMM = ring.Measures.CommissuralMM
	p.Annulus.HeightMM = ring.Measures.HeightMM
	p.Annulus.IntertrigoneShare = ring.Shape.IntertrigoneShare
	p.Annulus.DilationMM = 0 // the curve is the annulus as it is now
}

// keepOnVein brings the ends of devices back onto a vein that came out shorter than that of the base case.
func keepOnVein(c *casefile.Case) {
	for i, s := range c.Repairs {
		if l := c.Patient.Sinus.LengthMM; (s.Kind == repair.SinusBand || s.Kind == repair.SinusRods) && s.Value("distal_mm") > l {
			c.Repairs[i] = s.With("distal_mm", math.Floor(l))
		}
	}
}

// round writes what was read to a thousandth: more would only look exact.
func round(p, base *anatomy.Patient) {
	for _, q := range anatomy.Parameters() {
		if x := q.At(p); !math.IsNaN(*x) && *x != *q.At(base) {
			*x = math.Round(*x*1000) / 1000
		}
	}
}

func (r *Result) add(curve, from string, res contour.Residuals) {
	r.Residuals = append(r.Residuals, Residual{curve, from, res.Points, res.RMSMM, res.MaxMM})
}

func (r *Result) warn(curve string, texts []string) {
	for _, t := range texts {
		r.Warnings = append(r.Warnings, curve+": "+t)
	}
}

// bad words an error of package contour as one about a curve of the import.
func bad(curve string, err error) error {
	text := strings.TrimPrefix(strings.TrimPrefix(err.Error(), "contour: "), "geometry: ")
	problem, fix := text, "correct the points"
	if k := strings.LastIndex(text, ": "); k >= 0 {
		problem, fix = text[:k], text[k+2:]
	}
	return &fault.Field{Path: curve, Problem: problem, Allowed: "points of one curve, in any order and any frame", Fix: fix}
}

// beyond says that a number read from the curves is more than the program models.
func beyond(err error) error {
	var f *fault.Field
	if !errors.As(err, &f) {
		return err
	}
	g := *f
	g.Problem = "read from the curves: " + f.Problem
	g.Fix = fmt.Sprintf("check unit, frame and landmarks; a shape beyond this range is beyond the program (%s)", f.Fix)
	return &g
}
