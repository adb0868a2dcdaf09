package casefile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/fault"
	"annuloscope/sim/repair"

	"go.yaml.in/yaml/v3"
)

// Update rewrites a case file so that it says c: only values that differ are changed, in place, so that comments, order
// and the way unchanged numbers are written stay. New numbers are added at the end of their section; a number that is
// back at its default stays written. A file of an older version becomes one of this version. A repair keeps its comments as long as a repair of its kind is left. When nothing
// differs the bytes come back as they are; otherwise blank lines inside the file may go. JSON stays JSON.
//
// The error is a *fault.Field: data is not a case, or c is not valid.
func Update(data []byte, c Case) ([]byte, error) {
	was, err := Decode(data)
	if err != nil {
		return nil, err
	}
	if err := c.Validate(); err != nil {
		return nil, err
	}
	if err := writable(c); err != nil {
		return nil, err
	}
	if bytes.Equal(encode(was, true), encode(c, true)) {
		return append([]byte(nil), data...), nil
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		return nil, syntaxError(data, err)
	}
	if err := migrate(doc.Content[0]); err != nil {
		return nil, err
	}
	u := updater{root: doc.Content[0]}
	u.words(c)
	u.numbers(c.Patient)
	u.steps(c.Repairs)
	if json.Valid(data) {
		return asJSON(u.root), nil
	}
	var b bytes.Buffer
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := e.Encode(&doc); err != nil {
		return nil, &fault.Field{Problem: "the file cannot be written back: " + err.Error(), Fix: "save it as a new case"}
	}
	return b.Bytes(), nil
}

// writable refuses words that Decode would not read back.
func writable(c Case) error {
	d := decoder{place: map[string]*yaml.Node{}}
	for _, w := range []struct{ key, value string }{{"name", c.Name}, {"title", c.Title}, {"note", c.Note}} {
		if w.value == "" {
			continue
		}
		if err := d.text(w.key, word(w.value)); err != nil {
			return err
		}
	}
	return nil
}

type updater struct{ root *yaml.Node }

// words updates version, name, title, note, choices and the mark of imported geometry.
func (u *updater) words(c Case) {
	for _, w := range []struct{ key, value, normal string }{{"name", c.Name, ""}, {"title", c.Title, ""}, {"note", c.Note, ""}} {
		u.text(w.key, w.value, w.normal)
	}
	for _, q := range anatomy.Choices() {
		u.text(q.Path, *q.At(&c.Patient), q.Default)
	}
	imported := strconv.FormatBool(c.Patient.Imported)
	at := matches(u.root, "imported")
	for _, m := range at {
		if (m.node().Value == "true") != c.Patient.Imported {
			scalar(m.node(), imported, "!!bool")
		}
	}
	if len(at) == 0 && c.Patient.Imported {
		u.add("imported", &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!bool", Value: imported})
	}
}

func (u *updater) text(path, value, normal string) {
	at := matches(u.root, path)
	for _, m := range at {
		switch {
		case value == "" && normal == "":
			u.root.Content = without(u.root.Content, m.key)
		case m.node().Value != value:
			m.node().SetString(value)
		}
	}
	if len(at) == 0 && value != normal {
		u.add(path, word(value))
	}
}

func (u *updater) numbers(p anatomy.Patient) {
	for _, q := range anatomy.Parameters() {
		v := *q.At(&p)
		at := matches(u.root, q.Path)
		for i := len(at) - 1; i >= 0; i-- { // from the end, so that the places before stay right
			m := at[i]
			switch old, err := number(q.Path, m.node()); {
			case math.IsNaN(v): // a measurement taken back
				m.parent.Content = without(m.parent.Content, m.key)
			case err != nil || old != v:
				scalar(m.node(), number64(v), numberTag(v))
			}
		}
		if len(at) == 0 && !math.IsNaN(v) && v != q.Default {
			u.add(q.Path, numberNode(v))
		}
	}
}

// steps lays the list of repairs again: each takes the next file entry of its kind, or a new one.
func (u *updater) steps(steps []repair.Step) {
	list := find(u.root, "repairs")
	if list == nil && len(steps) == 0 {
		return
	}
	if list == nil {
		list = &yaml.Node{Kind: yaml.SequenceNode, Style: u.root.Style}
		u.add("repairs", list)
	}
	old := list.Content
	used := make([]bool, len(old))
	var now []*yaml.Node
	for _, s := range steps {
		var n *yaml.Node
		for i, o := range old {
			if !used[i] && find(o, "kind").Value == string(s.Kind) {
				used[i], n = true, o
				break
			}
		}
		if n == nil {
			n = stepNode(s)
			n.Style = list.Style
		}
		u.step(n, s)
		now = append(now, n)
	}
	list.Content = now
	if len(now) == 0 && len(old) > 0 {
		list.Style = yaml.FlowStyle
	}
}

func (u *updater) step(n *yaml.Node, s repair.Step) {
	spec, _ := repair.Find(s.Kind)
	for i, p := range spec.Parameters {
		v := s.Values[i]
		node := find(n, p.Key)
		if node == nil {
			if v != p.Default {
				n.Content = append(n.Content, word(p.Key), numberNode(v))
			}
			continue
		}
		if old, err := number(p.Key, node); err != nil || old != v {
			scalar(node, number64(v), numberTag(v))
		}
	}
}

// add puts a node at a path, in the deepest section that is there.
func (u *updater) add(path string, leaf *yaml.Node) {
	n := u.root
	for {
		key, rest, more := strings.Cut(path, ".")
		if !more {
			break
		}
		child := find(n, key)
		if child == nil || child.Kind != yaml.MappingNode {
			child = &yaml.Node{Kind: yaml.MappingNode, Style: n.Style}
			n.Content = append(n.Content, word(key), child)
		}
		n, path = child, rest
	}
	n.Content = append(n.Content, word(path), leaf)
}

// match is an entry of a mapping: key is the place of its key in the parent's contents.
type match struct {
	parent *yaml.Node
	key    int
}

func (m match) node() *yaml.Node { return m.parent.Content[m.key+1] }

// matches finds every entry for a path; keys may be nested or written with dots, as Decode reads them.
func matches(n *yaml.Node, path string) (out []match) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, v := n.Content[i].Value, n.Content[i+1]
		if key == path {
			out = append(out, match{n, i})
		} else if rest, ok := strings.CutPrefix(path, key+"."); ok && v.Kind == yaml.MappingNode {
			out = append(out, matches(v, rest)...)
		}
	}
	return out
}

func without(content []*yaml.Node, key int) []*yaml.Node {
	return append(append([]*yaml.Node(nil), content[:key]...), content[key+2:]...)
}

func scalar(n *yaml.Node, value, tag string) { n.Value, n.Tag, n.Style = value, tag, 0 }

func numberNode(v float64) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: numberTag(v), Value: number64(v)}
}

func numberTag(v float64) string {
	if v == math.Trunc(v) && !strings.ContainsAny(number64(v), "eE.") {
		return "!!int"
	}
	return "!!float"
}

// asJSON writes a tree that came from JSON.
func asJSON(n *yaml.Node) []byte {
	var b strings.Builder
	writeJSON(&b, n, "")
	b.WriteString("\n")
	return []byte(b.String())
}

func writeJSON(b *strings.Builder, n *yaml.Node, indent string) {
	step := 1
	open, end := "[", "]"
	switch {
	case n.Kind == yaml.MappingNode:
		step, open, end = 2, "{", "}"
	case n.Kind != yaml.SequenceNode:
		if n.Tag == "!!str" {
			b.WriteString(quoted(n.Value))
		} else {
			b.WriteString(n.Value)
		}
		return
	}
	b.WriteString(open)
	for i := 0; i < len(n.Content); i += step {
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(b, "\n%s  ", indent)
		if step == 2 {
			fmt.Fprintf(b, "%s: ", quoted(n.Content[i].Value))
		}
		writeJSON(b, n.Content[i+step-1], indent+"  ")
	}
	if len(n.Content) > 0 {
		b.WriteString("\n" + indent)
	}
	b.WriteString(end)
}

func quoted(s string) string {
	out, err := json.Marshal(s)
	if err != nil {
		panic("casefile: " + err.Error()) // text is valid UTF-8 by now
	}
	return string(out)
}
