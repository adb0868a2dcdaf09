package sweep

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/valve"

	"go.yaml.in/yaml/v3"
)

// Version is the manifest version that Encode writes and Decode reads.
const Version = 1

// Limits of a manifest.
const (
	MaxBytes = 1 << 20
	MaxRows  = 1_000_000
	MaxAxes  = 16
)

// The samplings.
const (
	Grid           = "grid"
	LatinHypercube = "latin-hypercube"
	Halton         = "halton"
)

// Range runs evenly from From to To. Count is the number of grid values, both ends included; 0 for a sample.
type Range struct {
	From  float64 `yaml:"from"`
	To    float64 `yaml:"to"`
	Count int     `yaml:"count,omitempty"`
}

// Axis is one number of the case and its values: a list or a range.
type Axis struct {
	Path  string    `yaml:"path"`
	List  []float64 `yaml:"list,omitempty,flow"`
	Range *Range    `yaml:"range,omitempty,flow"`
}

// Manifest is the plan of a sweep. Make one with Decode, or fill it and call Validate.
type Manifest struct {
	Schema int    `yaml:"annuloscope-sweep"`
	Sample string `yaml:"sample"`
	Rows   int    `yaml:"rows,omitempty"` // of a sample; 0 for a grid
	Seed   uint64 `yaml:"seed"`
	Full   bool   `yaml:"full"`             // run the closed-loop circulation
	Engine string `yaml:"engine,omitempty"` // of the leaflets, valve.SectionsEngine where empty
	Axes   []Axis `yaml:"axes"`
	Text   string `yaml:"case"` // the case file

	decoded casefile.Case
}

// New returns a validated manifest of a case.
func New(c casefile.Case, sample string, rows int, seed uint64, full bool, axes []Axis) (*Manifest, error) {
	m := &Manifest{Schema: Version, Sample: sample, Rows: rows, Seed: seed, Full: full, Axes: axes, Text: string(casefile.Encode(c))}
	return m, m.Validate()
}

// Encode writes a manifest as YAML that Decode reads back to the same.
func (m *Manifest) Encode() []byte {
	var b bytes.Buffer
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := e.Encode(m); err != nil {
		panic("sweep: " + err.Error()) // plain fields; only a mistake here can reach this
	}
	return b.Bytes()
}

// Hash is the SHA-256 of the encoded manifest, in hexadecimal.
func (m *Manifest) Hash() string {
	sum := sha256.Sum256(m.Encode())
	return hex.EncodeToString(sum[:])
}

// Case returns a copy of the case before any axis changes it.
func (m *Manifest) Case() casefile.Case { return m.decoded.Clone() }

// Decode reads and validates a manifest. Every error is a *fault.Field.
func Decode(data []byte) (*Manifest, error) {
	if len(data) > MaxBytes || !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		return nil, &fault.Field{Path: "manifest", Problem: "too large, or not text", Allowed: fmt.Sprintf("YAML in UTF-8, at most %d bytes", MaxBytes),
			Fix: "make one with `annuloscope sweep plan`"}
	}
	d := yaml.NewDecoder(bytes.NewReader(data))
	d.KnownFields(true)
	var m Manifest
	if err := d.Decode(&m); err != nil {
		return nil, syntax(err)
	}
	var more yaml.Node
	if err := d.Decode(&more); !errors.Is(err, io.EOF) {
		return nil, &fault.Field{Path: "manifest", Problem: "more than one document in the file", Allowed: "one manifest a file", Fix: "split the file"}
	}
	if err := m.Validate(); err != nil {
		return nil, err
	}
	return &m, nil
}

var yamlLine = regexp.MustCompile(`line (\d+): `)

func syntax(err error) error {
	text := strings.ReplaceAll(strings.TrimPrefix(err.Error(), "yaml: "), "\n", " ")
	f := &fault.Field{Path: "manifest", Problem: "cannot be read: " + text, Allowed: "the keys that `annuloscope sweep plan` writes", Fix: "check spelling and indentation"}
	if p := yamlLine.FindStringSubmatch(text); p != nil {
		f.Line, _ = strconv.Atoi(p[1])
		f.Column = 1
		f.Problem = "cannot be read: " + strings.Replace(text, p[0], "", 1)
	}
	return f
}

// Validate checks the manifest and reads its case. Every error is a *fault.Field.
func (m *Manifest) Validate() error {
	if m.Schema != Version {
		return &fault.Field{Path: "annuloscope-sweep", Value: strconv.Itoa(m.Schema), Problem: "a version this program does not read",
			Allowed: strconv.Itoa(Version), Fix: "write annuloscope-sweep: 1, or use a newer program"}
	}
	if m.Engine != "" && m.Engine != valve.SectionsEngine && m.Engine != valve.ShellEngine {
		return &fault.Field{Path: "engine", Value: m.Engine, Problem: "no such engine of the leaflets",
			Allowed: valve.SectionsEngine + ", " + valve.ShellEngine, Fix: "write one of them, or leave the line out"}
	}
	c, err := casefile.Decode([]byte(m.Text))
	if err != nil {
		var f *fault.Field
		if errors.As(err, &f) { // its line counts from the start of the case, not of the manifest
			return &fault.Field{Path: strings.TrimSuffix("case."+f.Path, "."), Value: f.Value, Problem: f.Problem, Allowed: f.Allowed, Fix: f.Fix}
		}
		return err
	}
	m.decoded = c
	switch {
	case m.Sample != Grid && m.Sample != LatinHypercube && m.Sample != Halton:
		return &fault.Field{Path: "sample", Value: m.Sample, Problem: "no such sampling", Allowed: Grid + ", " + LatinHypercube + ", " + Halton, Fix: "choose one of them"}
	case len(m.Axes) < 1 || len(m.Axes) > MaxAxes:
		return &fault.Field{Path: "axes", Value: strconv.Itoa(len(m.Axes)), Problem: "no axis, or too many", Allowed: fmt.Sprintf("1 to %d axes", MaxAxes), Fix: "name the numbers to change"}
	case m.Sample == Grid && m.Rows != 0:
		return &fault.Field{Path: "rows", Value: strconv.Itoa(m.Rows), Problem: "a grid has as many rows as its axes make", Allowed: "none", Fix: "leave rows out, or choose a sample"}
	case m.Sample != Grid && (m.Rows < 1 || m.Rows > MaxRows):
		return &fault.Field{Path: "rows", Value: strconv.Itoa(m.Rows), Problem: "out of range", Allowed: fmt.Sprintf("1 to %d", MaxRows), Fix: "say how many rows to draw"}
	}
	rows, seen := 1, map[string]bool{}
	for i, a := range m.Axes {
		if seen[a.Path] {
			return &fault.Field{Path: fmt.Sprintf("axes[%d].path", i+1), Value: a.Path, Problem: "given twice", Allowed: "each number once", Fix: "remove one"}
		}
		seen[a.Path] = true
		if err := m.axis(i, a); err != nil {
			return err
		}
		if rows *= a.length(); m.Sample == Grid && rows > MaxRows {
			return &fault.Field{Path: "axes", Problem: "the grid is too large", Allowed: fmt.Sprintf("at most %d rows", MaxRows), Fix: "take fewer values, or a sample"}
		}
	}
	return nil
}

// length is how many grid values an axis has.
func (a Axis) length() int {
	if a.Range != nil {
		return max(1, a.Range.Count)
	}
	return len(a.List)
}

func (m *Manifest) axis(i int, a Axis) error {
	where := fmt.Sprintf("axes[%d]", i+1)
	if (a.Range == nil) == (len(a.List) == 0) {
		return &fault.Field{Path: where, Value: a.Path, Problem: "needs either a list or a range", Allowed: "list: [1, 2, 3] or range: {from: 1, to: 3, count: 3}", Fix: "give one of the two"}
	}
	values := a.List
	if r := a.Range; r != nil {
		values = []float64{r.From, r.To}
		switch {
		case !(r.From < r.To) || math.IsInf(r.From, 0) || math.IsInf(r.To, 0):
			return &fault.Field{Path: where + ".range", Value: fmt.Sprintf("%g to %g", r.From, r.To), Problem: "does not rise", Allowed: "from below to", Fix: "swap or change them"}
		case m.Sample == Grid && (r.Count < 2 || r.Count > MaxRows):
			return &fault.Field{Path: where + ".range.count", Value: strconv.Itoa(r.Count), Problem: "out of range", Allowed: fmt.Sprintf("2 to %d", MaxRows), Fix: "say how many values the range has"}
		case m.Sample != Grid && r.Count != 0:
			return &fault.Field{Path: where + ".range.count", Value: strconv.Itoa(r.Count), Problem: "a sample draws within the range", Allowed: "no count", Fix: "leave it out, or choose a grid"}
		}
	} else if m.Sample != Grid {
		return &fault.Field{Path: where, Value: a.Path, Problem: "a sample needs ranges", Allowed: "range: {from: 1, to: 3}", Fix: "give a range, or choose a grid"}
	}
	c := m.decoded.Clone()
	for _, v := range values {
		if err := c.Set(a.Path, v); err != nil {
			return err
		}
	}
	return nil
}
