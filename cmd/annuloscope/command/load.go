package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"

	"annuloscope/assets"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"
)

// caseFlags are what every command that takes a case takes with it.
type caseFlags struct {
	Case   string   `arg:"" help:"A built-in case (see cases) or a file."`
	Set    []string `help:"Change a number: path=value, such as annulus.septal_lateral_mm=34 or repair.1.shortening_mm=25." placeholder:"PATH=VALUE" sep:"none"`
	Repair []string `help:"Add a repair: kind,key=value,… such as sinus-band,shortening_mm=20; left out numbers take their defaults." placeholder:"KIND,KEY=VALUE" sep:"none"`
}

// load reads the case and applies --repair, then --set.
func (f *caseFlags) load() (casefile.Case, error) {
	c, err := Load(f.Case)
	if err != nil {
		return c, err
	}
	for _, text := range f.Repair {
		s, err := repair.Parse(text)
		if err != nil {
			return c, err
		}
		c.Repairs = append(c.Repairs, s)
	}
	for _, text := range f.Set {
		if err := assign(&c, text); err != nil {
			return c, err
		}
	}
	return c, c.Validate()
}

// Load reads a built-in case by its name, or a file.
func Load(name string) (casefile.Case, error) {
	if slices.Contains(assets.CaseNames(), name) {
		data, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
		if err != nil {
			return casefile.Case{}, err
		}
		return casefile.Decode(data)
	}
	data, err := readFile(name, casefile.MaxBytes+1)
	if errors.Is(err, fs.ErrNotExist) {
		return casefile.Case{}, &fault.Field{Path: "case", Value: name, Problem: "no such built-in case and no such file",
			Allowed: strings.Join(assets.CaseNames(), ", ") + ", or a file", Fix: "did you mean " + anatomy.Nearest(name, assets.CaseNames()) + "?"}
	}
	if err != nil {
		return casefile.Case{}, failWith(Failed, "reading %s: %w", name, err)
	}
	c, err := casefile.Decode(data)
	var f *fault.Field
	if errors.As(err, &f) {
		return c, fmt.Errorf("%s: %w", name, f)
	}
	return c, err
}

// readFile reads at most limit bytes, so that a huge file or an endless device costs no memory.
func readFile(name string, limit int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, errors.New("it is a folder")
	}
	return io.ReadAll(io.LimitReader(f, limit))
}

// assign does one --set.
func assign(c *casefile.Case, text string) error {
	path, value, ok := strings.Cut(text, "=")
	path, value = strings.TrimSpace(path), strings.TrimSpace(value)
	if !ok {
		return failWith(Usage, "--set %s: not of the form path=value", text)
	}
	if anatomy.IsChoice(path) {
		return c.Patient.SetChoice(path, value)
	}
	v, err := strconv.ParseFloat(value, 64)
	if err != nil {
		if _, known := anatomy.Find(path); !known && !strings.HasPrefix(path, "repair.") {
			return anatomy.Unknown(path)
		}
		return &fault.Field{Path: path, Value: value, Problem: "not a number", Allowed: "a plain number; its unit is in the name", Fix: "write digits with a point, no unit"}
	}
	return c.Set(path, v)
}
