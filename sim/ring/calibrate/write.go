package calibrate

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"

	"annuloscope/sim/ring"
)

// WriteGo writes the constants as sim/ring/default.go, each line with tissue, unit, prior and reason.
func WriteGo(w io.Writer, c ring.Constants, rep FitReport) error {
	p := &printer{w: w}
	p.line("package ring")
	p.line("")
	p.line("// Written by `annuloscope calibrate fit -o sim/ring/default.go`; do not edit. Fitted to the sinus cinch of anatomy.md S45")
	p.line("// and the downsizing forces of S46 in the directions these identify; everything else keeps its prior.")
	p.line("// Educational only: not for diagnosis or treatment planning. Follow licensed practice and local guidance.")
	p.line("//")
	for _, r := range rep.Rows {
		p.line("//	%-44s published %5.3g ± %-5.3g fitted %.3g (%s)", r.Name, r.Published, r.SD, r.Model, r.Source)
	}
	p.line("//")
	p.line("// Singular values of the fit (standard deviations of data per e-fold of constants; fitted from %.3g up):", Identified)
	for k, s := range rep.Singular {
		p.line("//	%-8.3g along %s", s, direction(rep, k))
	}
	p.line("")
	p.line("// Default returns the calibrated constants.")
	p.line("func Default() Constants {")
	p.line("	return Constants{")
	for _, e := range Entries() {
		how := "not fitted"
		if slices.Contains(rep.Parameters, e.Name) || e.Name == "WallShear" || e.Name == "WallTransverse" {
			how = fmt.Sprintf("prior %.3g", e.Prior)
		}
		p.line("		%s: %.7g, // %s: %s; %s (%s)", e.Name, *field(&c, e.Name), e.Unit, e.Tissue, e.Reason, how)
	}
	p.line("	}")
	p.line("}")
	return p.err
}

// direction names a right singular vector by its components.
func direction(rep FitReport, k int) string {
	s := ""
	for i, name := range rep.Parameters {
		s += fmt.Sprintf("%+.2f %s ", rep.Directions[k][i], name)
	}
	return s[:len(s)-1]
}

// WriteJSON writes constants, provenance and the fit as one JSON object.
func WriteJSON(w io.Writer, c ring.Constants, rep FitReport) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(struct {
		Constants  ring.Constants
		Provenance []Entry
		Fit        FitReport
	}{c, Entries(), rep})
}

// printer keeps the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}
