package casefile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"

	"go.yaml.in/yaml/v3"
)

// MaxBytes is the largest case file read.
const MaxBytes = 256 << 10

// Decode reads one case and validates it. Every error is a *fault.Field.
func Decode(data []byte) (Case, error) {
	root, err := parse(data)
	if err != nil {
		return Case{}, err
	}
	d := decoder{c: Case{Patient: anatomy.Normal()}, place: map[string]*yaml.Node{}}
	if err := d.document(root); err != nil {
		return Case{}, err
	}
	if err := d.c.Validate(); err != nil {
		return Case{}, d.locate(err, root)
	}
	return d.c, nil
}

// parse checks size and encoding and returns the document's root mapping.
func parse(data []byte) (*yaml.Node, error) {
	whole := func(f fault.Field, offset int) (*yaml.Node, error) { return nil, f.At(placeOf(data, offset)) }
	switch {
	case len(data) > MaxBytes:
		return whole(fault.Field{Problem: "the file is too large", Value: fmt.Sprintf("%d bytes", len(data)),
			Allowed: fmt.Sprintf("at most %d bytes", MaxBytes), Fix: "a case is a page of text"}, MaxBytes)
	case notText(data) >= 0:
		return whole(fault.Field{Problem: "the file is not text", Allowed: "YAML or JSON in UTF-8", Fix: "check that this is a case file"}, notText(data))
	case len(bytes.TrimSpace(data)) == 0:
		return whole(fault.Field{Problem: "the file is empty", Allowed: "YAML or JSON", Fix: "start with the line annuloscope: 1"}, 0)
	}
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var doc yaml.Node
	if err := dec.Decode(&doc); err != nil {
		return nil, syntaxError(data, err)
	}
	var more yaml.Node
	if err := dec.Decode(&more); !errors.Is(err, io.EOF) {
		f := &fault.Field{Problem: "more than one document in the file", Allowed: "one case a file", Fix: "split the file"}
		return nil, f.At(max(1, more.Line), max(1, more.Column))
	}
	if doc.Kind != yaml.DocumentNode || len(doc.Content) != 1 || doc.Content[0].Kind != yaml.MappingNode {
		f := &fault.Field{Problem: "the file does not hold keys and values", Allowed: "key: value lines, or a JSON object",
			Fix: "start with the line annuloscope: 1"}
		return nil, f.At(max(1, doc.Line), max(1, doc.Column))
	}
	return doc.Content[0], migrate(doc.Content[0])
}

var yamlLine = regexp.MustCompile(`line (\d+): `)

func syntaxError(data []byte, err error) error {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	f := &fault.Field{Problem: "the file cannot be read: " + text, Allowed: "YAML or JSON", Fix: "check indentation, quotes and that the file is complete"}
	if m := yamlLine.FindStringSubmatch(text); m != nil {
		f.Line, _ = strconv.Atoi(m[1])
		f.Column = firstLetter(data, f.Line)
		f.Problem = "the file cannot be read: " + strings.Replace(text, m[0], "", 1)
	}
	return f
}

type decoder struct {
	c     Case
	place map[string]*yaml.Node // where each path was given
}

func (d *decoder) document(root *yaml.Node) error {
	stated := false
	err := d.each("", root, func(key string, k, v *yaml.Node) error {
		switch key {
		case "annuloscope":
			stated = true // and read by migrate
			return nil
		case "name", "title", "note":
			return d.text(key, v)
		case "repairs":
			return d.repairs(v)
		}
		return d.value(key, k, v)
	})
	if err != nil {
		return err
	}
	if !stated {
		return (&fault.Field{Path: "annuloscope", Problem: "the version is missing", Allowed: strconv.Itoa(Version),
			Fix: "add the line annuloscope: 1"}).At(root.Line, root.Column)
	}
	return nil
}

// each visits a mapping's entries; it refuses aliases, duplicate keys and keys that are not plain words.
func (d *decoder) each(prefix string, n *yaml.Node, visit func(key string, k, v *yaml.Node) error) error {
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Kind != yaml.ScalarNode || k.Value == "<<" || k.Anchor != "" || v.Kind == yaml.AliasNode || v.Anchor != "" {
			return (&fault.Field{Path: prefix, Problem: "anchors, aliases and merged keys are not read", Allowed: "plain keys and values",
				Fix: "write the value out"}).At(k.Line, k.Column)
		}
		path := prefix + k.Value
		if seen[k.Value] {
			return (&fault.Field{Path: path, Problem: "given twice", Allowed: "once", Fix: "remove one"}).At(k.Line, k.Column)
		}
		seen[k.Value] = true
		if err := visit(path, k, v); err != nil {
			var f *fault.Field
			if errors.As(err, &f) {
				return f.At(v.Line, v.Column)
			}
			return err
		}
	}
	return nil
}

func (d *decoder) value(path string, k, v *yaml.Node) error {
	d.place[path] = v
	if v.Kind == yaml.MappingNode {
		if !isPrefix(path + ".") {
			return anatomy.Unknown(path).(*fault.Field).At(k.Line, k.Column)
		}
		return d.each(path+".", v, func(p string, k, v *yaml.Node) error { return d.value(p, k, v) })
	}
	if anatomy.IsChoice(path) {
		if v.Kind != yaml.ScalarNode {
			return notScalar(path, "one word")
		}
		return d.c.Patient.SetChoice(path, v.Value)
	}
	if path == "imported" {
		return d.flag(path, v)
	}
	if _, ok := anatomy.Find(path); !ok {
		return anatomy.Unknown(path).(*fault.Field).At(k.Line, k.Column)
	}
	x, err := number(path, v)
	if err != nil {
		return err
	}
	return d.c.Patient.Set(path, x)
}

func isPrefix(p string) bool {
	for _, q := range anatomy.Parameters() {
		if strings.HasPrefix(q.Path, p) {
			return true
		}
	}
	return false
}

func (d *decoder) flag(path string, v *yaml.Node) error {
	if v.Kind != yaml.ScalarNode || v.Tag != "!!bool" {
		return &fault.Field{Path: path, Value: v.Value, Problem: "not true or false", Allowed: "true, false", Fix: "write true or false"}
	}
	d.c.Patient.Imported = v.Value == "true"
	return nil
}

func notScalar(path, allowed string) error {
	return &fault.Field{Path: path, Problem: "not a single value", Allowed: allowed, Fix: "write one value"}
}

func number(path string, v *yaml.Node) (float64, error) {
	if v.Kind != yaml.ScalarNode {
		return 0, notScalar(path, "one number")
	}
	if v.Tag == "!!int" || v.Tag == "!!float" {
		var x float64
		if err := v.Decode(&x); err == nil && !math.IsNaN(x) {
			return x, nil
		}
	}
	allowed := "a plain number; its unit is in the name"
	if q, ok := anatomy.Find(path); ok {
		allowed = "a plain number, " + q.Range()
	}
	return 0, &fault.Field{Path: path, Value: v.Value, Problem: "not a number", Allowed: allowed, Fix: "write digits with a point, no unit and no quotes"}
}

func (d *decoder) text(key string, v *yaml.Node) error {
	const most = maxTextBytes
	if v.Kind != yaml.ScalarNode || len(v.Value) > most || strings.ContainsFunc(v.Value, func(r rune) bool { return r < ' ' && r != '\n' }) {
		return &fault.Field{Path: key, Value: v.Value, Problem: "not a short text", Allowed: fmt.Sprintf("one text of at most %d bytes", most), Fix: "shorten it"}
	}
	switch key {
	case "name":
		d.c.Name = v.Value
		if !nameForm.MatchString(v.Value) {
			return &fault.Field{Path: key, Value: v.Value, Problem: "not a name", Allowed: "lower-case letters, digits and hyphens, at most 40",
				Fix: "write for example my-case"}
		}
	case "title":
		d.c.Title = v.Value
	case "note":
		d.c.Note = v.Value
	}
	return nil
}

var nameForm = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,39}$`)

func (d *decoder) repairs(v *yaml.Node) error {
	d.place["repairs"] = v
	if v.Kind != yaml.SequenceNode {
		return &fault.Field{Path: "repairs", Problem: "not a list", Allowed: "a list of repairs, each with its kind", Fix: "begin each with - kind:"}
	}
	for i, item := range v.Content {
		s, err := d.step(fmt.Sprintf("repairs[%d].", i+1), item)
		if err != nil {
			var f *fault.Field
			if errors.As(err, &f) {
				return f.At(item.Line, item.Column)
			}
			return err
		}
		d.c.Repairs = append(d.c.Repairs, s)
	}
	return nil
}

func (d *decoder) step(prefix string, item *yaml.Node) (repair.Step, error) {
	if item.Kind != yaml.MappingNode {
		return repair.Step{}, &fault.Field{Path: strings.TrimSuffix(prefix, "."), Problem: "not a repair", Allowed: "kind: and its numbers", Fix: "begin with kind:"}
	}
	var s repair.Step
	for i := 0; i+1 < len(item.Content); i += 2 {
		if item.Content[i].Value == "kind" {
			var err error
			if s, err = repair.New(repair.Kind(item.Content[i+1].Value)); err != nil {
				return s, err.(*fault.Field).At(item.Content[i+1].Line, item.Content[i+1].Column)
			}
		}
	}
	if s.Kind == "" {
		return s, &fault.Field{Path: prefix + "kind", Problem: "the kind is missing", Allowed: "see `annuloscope repairs`", Fix: "add kind:"}
	}
	err := d.each(prefix, item, func(path string, k, v *yaml.Node) error {
		key := strings.TrimPrefix(path, prefix)
		if key == "kind" {
			return nil
		}
		x, err := number(path, v)
		if err != nil {
			return err
		}
		d.place[string(s.Kind)+"."+key] = v
		return s.Set(key, x)
	})
	return s, err
}
