package casefile

import (
	"bytes"
	"math"
	"strconv"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"

	"go.yaml.in/yaml/v3"
)

// Encode writes a case as YAML that Decode reads back to the same case: the version, the words, every number that
// differs from the default, and every number of every repair.
func Encode(c Case) []byte { return encode(c, false) }

// EncodeJSON is Encode as JSON.
func EncodeJSON(c Case) []byte { return asJSON(tree(c, false)) }

func encode(c Case, all bool) []byte {
	var b bytes.Buffer
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := e.Encode(tree(c, all)); err != nil {
		panic("casefile: " + err.Error()) // the tree is ours; only a mistake in tree can reach this
	}
	return b.Bytes()
}

// tree is a case as it is written: with every number, or those that differ from the default.
func tree(c Case, all bool) *yaml.Node {
	root := &yaml.Node{Kind: yaml.MappingNode}
	put(root, []string{"annuloscope"}, strconv.Itoa(Version), false)
	for _, w := range []struct{ key, value string }{{"name", c.Name}, {"title", c.Title}, {"note", c.Note}} {
		if w.value != "" {
			put(root, []string{w.key}, w.value, true)
		}
	}
	for _, q := range anatomy.Choices() {
		if v := *q.At(&c.Patient); all || v != q.Default {
			put(root, strings.Split(q.Path, "."), v, true)
		}
	}
	if c.Patient.Imported {
		put(root, []string{"imported"}, "true", false)
	}
	for _, q := range anatomy.Parameters() {
		v := *q.At(&c.Patient)
		if math.IsNaN(v) || (!all && v == q.Default) {
			continue
		}
		put(root, strings.Split(q.Path, "."), number64(v), false)
	}
	if len(c.Repairs) > 0 {
		list := &yaml.Node{Kind: yaml.SequenceNode}
		for _, s := range c.Repairs {
			list.Content = append(list.Content, stepNode(s))
		}
		root.Content = append(root.Content, word("repairs"), list)
	}
	return root
}

func stepNode(s repair.Step) *yaml.Node {
	spec, _ := repair.Find(s.Kind)
	n := &yaml.Node{Kind: yaml.MappingNode}
	put(n, []string{"kind"}, string(s.Kind), true)
	for i, p := range spec.Parameters {
		put(n, []string{p.Key}, number64(s.Values[i]), false)
	}
	return n
}

// number64 writes a number so that it reads back to the last bit; zero has no sign.
func number64(v float64) string {
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

func word(s string) *yaml.Node {
	n := &yaml.Node{}
	n.SetString(s)
	return n
}

// put sets a value at nested keys of a mapping, making the mappings between.
func put(n *yaml.Node, keys []string, value string, isText bool) {
	for i, key := range keys {
		child := find(n, key)
		if child == nil {
			child = &yaml.Node{Kind: yaml.MappingNode}
			if i == len(keys)-1 {
				child = &yaml.Node{Kind: yaml.ScalarNode, Value: value}
				if isText {
					child = word(value)
				}
			}
			n.Content = append(n.Content, word(key), child)
		}
		n = child
	}
}

func find(n *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}
