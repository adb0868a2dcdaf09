package calibrate

import (
	"bytes"
	"fmt"
	"go/format"
	"io"
	"math"
	"slices"

	"annuloscope/sim/ring"
)

// Source returns the constants file sim/ring/default.go, formatted, for constants and the fit they came from.
func Source(c ring.Constants, rep FitReport) ([]byte, error) {
	var b bytes.Buffer
	if err := WriteGo(&b, c, rep); err != nil {
		return nil, err
	}
	return format.Source(b.Bytes())
}

// WriteFit tells a fit in words: what was fitted and how well, what the data identify, and where every constant comes from.
func WriteFit(w io.Writer, c ring.Constants, rep FitReport) error {
	p := &printer{w: w}
	p.line("Fitted measurements")
	for _, r := range rep.Rows {
		p.line("  %-44s published %5.3g ± %-5.3g model %5.3g  gap %+.1f SD  (%s)", r.Name, r.Published, r.SD, r.Model, (r.Model-r.Published)/r.SD, r.Source)
	}
	p.line("")
	p.line("Singular values of the fit: standard deviations of the data per e-fold of the constants.")
	p.line("Directions from %.3g up are fitted; the others keep their priors, because the data do not tell them.", Identified)
	for k, s := range rep.Singular {
		verdict := "prior kept"
		if s >= Identified {
			verdict = "fitted"
		}
		p.line("  %-8.3g %-10s along %s", s, verdict, direction(rep, k))
	}
	p.line("")
	p.line("Combined secant stiffness of the sinus cinch: %.2f N/mm; published %.2f N/mm (derived from S45).", rep.SecantNPerMM, publishedSecant)
	p.line("")
	p.line("Constants: each tissue once")
	for _, e := range Entries() {
		how := "not fitted"
		if Open(e.Name) {
			how = fmt.Sprintf("prior %.3g", e.Prior)
		}
		p.line("  %-22s %9.4g %-6s %-13s %s: %s", e.Name, *field(&c, e.Name), e.Unit, how, e.Tissue, e.Reason)
	}
	return p.err
}

// publishedSecant is 2.1 N over 24.2 % of 26 mm, N/mm (anatomy.md, derived from S45).
const publishedSecant = 0.33

// Open tells whether the fit may move the constant of that name.
func Open(name string) bool {
	return name == "WallShear" || name == "WallTransverse" || slices.ContainsFunc(fitted, func(f fittedConstant) bool { return f.name == name })
}

// Known tells whether a figure was published for the row.
func (p Prediction) Known() bool { return !math.IsNaN(p.Published) }
