package command

import (
	"encoding/json"
	"fmt"
	"io"

	"annuloscope/scenes/present/plain"
	"annuloscope/scenes/save"
	"annuloscope/sim/ring"
	"annuloscope/sim/ring/calibrate"
	"annuloscope/sim/valve"
)

type calibrateCmd struct {
	Fit         calibrateFitCmd         `cmd:"" help:"Fit the ring's stiffnesses to the published forces and say what the data tell and what they do not."`
	Predict     calibratePredictCmd     `cmd:"" help:"Predict published effects that the fit did not use: published, predicted, gap. Nothing is tuned."`
	Sensitivity calibrateSensitivityCmd `cmd:"" help:"Change one thing at a time under a sinus band and see what it does."`
}

type calibrateFitCmd struct {
	JSON   bool   `help:"Print constants, provenance and fit as JSON."`
	Output string `short:"o" help:"Also write the constants as Go source with their provenance (the file sim/ring/default.go)." placeholder:"FILE"`
}

// Run fits from the priors; the same program gives the same numbers every time.
func (c *calibrateFitCmd) Run(s *Streams) error {
	constants, rep := calibrate.Fit()
	if c.Output != "" {
		source, err := calibrate.Source(constants, rep)
		if err == nil {
			err = save.File(c.Output, func(w io.Writer) error {
				_, err := w.Write(source)
				return err
			})
		}
		if err != nil {
			return failWith(Failed, "writing %s: %w", c.Output, err)
		}
		fmt.Fprintf(s.Err, "wrote %s. %s\n", c.Output, valve.Notice)
	}
	if c.JSON {
		return indented(s.Out, struct {
			Notice     string              `json:"notice"`
			Constants  ring.Constants      `json:"constants"`
			Provenance []calibrate.Entry   `json:"provenance"`
			Fit        calibrate.FitReport `json:"fit"`
		}{valve.Notice, constants, calibrate.Entries(), rep})
	}
	if err := calibrate.WriteFit(s.Out, constants, rep); err != nil {
		return err
	}
	return notice(s.Out, valve.Notice)
}

type calibratePredictCmd struct {
	engineFlag
	JSON bool   `help:"Print the rows as JSON."`
	Case string `help:"The patient in which effects on the whole valve are predicted, a built-in case or a file." default:"functional"`
}

type predictionRow struct {
	Name      string   `json:"name"`
	Unit      string   `json:"unit"`
	Published *float64 `json:"published"` // null: no figure published
	SD        float64  `json:"sd"`        // 0: none published
	Predicted float64  `json:"predicted"`
	Gap       *float64 `json:"gap"`
	Source    string   `json:"source"`
	Note      string   `json:"note"`
	Engine    string   `json:"engine,omitempty"` // that closed the leaflets, where there are any
}

// Run predicts with the constants the program uses.
func (c *calibratePredictCmd) Run(s *Streams) error {
	cs, err := Load(c.Case)
	if err != nil {
		return err
	}
	whole, err := valve.PublishedEffects(cs, c.options(valve.Options{}))
	if err != nil {
		return err
	}
	rows := calibrate.Predict(ring.Default())
	alone := len(rows) // the rest is of the whole valve
	var by []string
	for _, p := range whole {
		by = append(by, p.Engine)
		rows = append(rows, calibrate.Prediction{Name: p.Name, Unit: p.Unit, Published: p.Published, SD: p.SD, Model: p.Model, Source: p.Source, Note: p.Note})
	}
	c.warnAny(s, by...)
	if c.JSON {
		var out []predictionRow
		for i, p := range rows {
			q := predictionRow{Name: p.Name, Unit: p.Unit, SD: p.SD, Predicted: p.Model, Source: p.Source, Note: p.Note}
			if i >= alone {
				q.Engine = by[i-alone]
			}
			if p.Known() {
				published, gap := p.Published, p.Gap()
				q.Published, q.Gap = &published, &gap
			}
			out = append(out, q)
		}
		return indented(s.Out, struct {
			Notice string          `json:"notice"`
			Rows   []predictionRow `json:"rows"`
		}{valve.NoticeFor(&cs.Patient), out})
	}
	cells := [][]string{{"effect (constants as fitted, nothing tuned)", "published", "predicted", "gap", "unit", "source"}}
	for _, p := range rows {
		published, gap := "-", "-"
		if p.Known() {
			published, gap = fmt.Sprintf("%.3g", p.Published), fmt.Sprintf("%+.2g", p.Gap())
			if p.SD > 0 {
				published += fmt.Sprintf(" ± %.2g", p.SD)
				gap += fmt.Sprintf(" (%+.1f SD)", p.Gap()/p.SD)
			}
		}
		cells = append(cells, []string{p.Name, published, fmt.Sprintf("%.3g", p.Model), gap, p.Unit, p.Source})
	}
	if err := plain.Table(s.Out, cells); err != nil {
		return err
	}
	if _, err := fmt.Fprintln(s.Out, "\nWhole valve. "+plain.Engines(c.name(), by...)); err != nil {
		return err
	}
	return notice(s.Out, valve.NoticeFor(&cs.Patient))
}

type calibrateSensitivityCmd struct {
	engineFlag
	JSON bool   `help:"Print the rows as JSON."`
	Case string `help:"The patient that the second table changes, a built-in case or a file." default:"functional"`
}

// Run changes tissue and specimen in the ring alone, then the patient in the whole model (which knows the blood pressure).
func (c *calibrateSensitivityCmd) Run(s *Streams) error {
	cs, err := Load(c.Case)
	if err != nil {
		return err
	}
	whole, err := valve.Sensitivity(cs, c.options(valve.Options{}))
	if err != nil {
		return err
	}
	var by []string
	for _, v := range whole {
		if v.Engine != "" { // solved
			by = append(by, v.Engine)
		}
	}
	c.warnAny(s, by...)
	parts := calibrate.Sensitivity(ring.Default())
	if c.JSON {
		return indented(s.Out, struct {
			Notice string                `json:"notice"`
			Ring   []calibrate.Variation `json:"ring"`
			Case   string                `json:"case"`
			Valve  []valve.Variation     `json:"valve"`
		}{valve.NoticeFor(&cs.Patient), parts, cs.Name, whole})
	}
	cells := [][]string{{"15 mm of shortening, ring alone", "septal-lateral mm", "tension N", "transmitted %", "status"}}
	for _, v := range parts {
		cells = append(cells, []string{v.Name, plain.Number(-v.SeptalLateralMM, 2), plain.Number(v.TensionN, 2), plain.Number(100*v.Transmitted, 0), v.Status.String()})
	}
	if err := plain.Table(s.Out, cells); err != nil {
		return err
	}
	cells = [][]string{{"sinus band in the case " + cs.Name + ", whole model", "septal-lateral mm", "tension N", "transmitted %", "leak cm²", "artery %", "status"}}
	for _, v := range whole {
		cells = append(cells, []string{v.Name, plain.Number(-v.SeptalLateralMM, 2), plain.Number(v.TensionN, 2), plain.Number(100*v.TransmittedFraction, 0),
			plain.Number(v.OrificeCM2, 2), plain.Number(v.NarrowingPct, 0), v.Status})
	}
	if _, err := fmt.Fprintln(s.Out); err != nil {
		return err
	}
	if err := plain.Table(s.Out, cells); err != nil {
		return err
	}
	if _, err := fmt.Fprintln(s.Out, "\nWhole valve. "+plain.Engines(c.name(), by...)); err != nil {
		return err
	}
	return notice(s.Out, valve.NoticeFor(&cs.Patient))
}

func indented(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

func notice(w io.Writer, text string) error {
	_, err := fmt.Fprintf(w, "\n%s\n", text)
	return err
}
