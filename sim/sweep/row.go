package sweep

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// The statuses of a row.
const (
	Solved       = "solved"
	NotConverged = "not converged" // numbers kept, not to be used
	FailedRow    = "failed"        // no numbers
)

// Header returns the lines before the first row: caution, provenance and column names with units. It does not depend on
// shard or threads.
func (m *Manifest) Header() string {
	tier := "orifice equation at rest"
	if m.Full {
		tier = "closed loop"
	}
	tier += "; engine " + cmp.Or(m.Engine, valve.SectionsEngine)
	head := fmt.Sprintf("# %s\n# annuloscope %s sweep; manifest sha256 %s; case %s sha256 %s; tier %s; sample %s; seed %d\n# rows %d\n",
		valve.NoticeFor(&m.decoded.Patient), valve.Version, m.Hash(), m.decoded.Name, casefile.Hash(m.decoded), tier, m.Sample, m.Seed, m.Points().Rows())
	return head + line(m.columns())
}

func (m *Manifest) columns() []string {
	c := []string{"row"}
	for _, a := range m.Axes {
		c = append(c, named(a.Path, m.unit(a.Path)))
	}
	c = append(c, "status", "reason")
	for _, when := range []string{"before.", "after."} {
		for _, q := range valve.Quantities() {
			c = append(c, named(when+q.Path, q.Unit))
		}
		c = append(c, when+"leak_class", when+"artery_risk")
	}
	return append(c, "engine")
}

func named(path, unit string) string {
	if unit == "" {
		unit = "1"
	}
	return path + " [" + unit + "]"
}

func (m *Manifest) unit(path string) string {
	if p, ok := anatomy.Find(path); ok {
		return p.Unit
	}
	parts := strings.SplitN(path, ".", 3) // repair.N.key, checked by Validate
	n, _ := strconv.Atoi(parts[1])
	spec, _ := repair.Find(m.decoded.Repairs[n-1].Kind)
	for _, p := range spec.Parameters {
		if p.Key == parts[2] {
			return p.Unit
		}
	}
	return ""
}

// Row is one solved row: its line of the file, with the newline.
type Row struct {
	Status, Reason string
	Line           string
}

// Worker solves rows one after another; one for each thread.
type Worker struct {
	manifest *Manifest
	points   *Points
	solver   *valve.Solver
	table    []valve.Quantity
}

// NewWorker returns a worker on shared points of the manifest.
func NewWorker(m *Manifest, p *Points) *Worker {
	return &Worker{m, p, valve.NewSolver(), valve.Quantities()}
}

// Row solves a row. What it says depends on the manifest and the row only.
func (w *Worker) Row(i int) Row {
	values := w.points.At(i)
	fields := []string{strconv.Itoa(i)}
	for _, v := range values {
		fields = append(fields, number(v))
	}
	report, err := w.solve(values)
	r := Row{Status: Solved}
	switch {
	case err != nil:
		r.Status, r.Reason = FailedRow, oneLine(err.Error())
	case !report.Provenance.Converged:
		r.Status, r.Reason = NotConverged, oneLine(report.Provenance.Status)
	}
	fields = append(fields, r.Status, r.Reason)
	for _, s := range []*valve.State{&report.Before, &report.After} {
		for _, q := range w.table {
			if err != nil {
				fields = append(fields, "")
			} else {
				fields = append(fields, number(q.Of(s)))
			}
		}
		fields = append(fields, s.Regurgitation.Grade.Class, s.Artery.Risk)
	}
	r.Line = line(append(fields, report.Provenance.Engine)) // of a row that failed: none
	return r
}

// solve puts the values into the case. A panic of the solver costs its row and not the sweep: it becomes the row's reason,
// and a fresh solver takes over.
func (w *Worker) solve(values []float64) (report valve.Report, err error) {
	c := w.manifest.Case()
	for k, a := range w.manifest.Axes {
		if err := c.Set(a.Path, values[k]); err != nil {
			return report, err
		}
	}
	if err := c.Validate(); err != nil {
		return report, err
	}
	defer func() {
		if r := recover(); r != nil {
			report, err = valve.Report{}, fmt.Errorf("the solver broke off: %v", r)
			w.solver = valve.NewSolver()
		}
	}()
	return w.solver.Solve(c, valve.Options{Circulation: w.manifest.Full, Engine: w.manifest.Engine})
}

func number(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// oneLine keeps a row on one line of the file.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// line writes one CSV line with its newline.
func line(fields []string) string {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write(fields) // a bytes.Buffer does not fail
	w.Flush()
	return b.String()
}
