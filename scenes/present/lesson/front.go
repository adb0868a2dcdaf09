package lesson

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// MaxBytes is the largest lesson file read.
const MaxBytes = 128 << 10

var (
	nameForm = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,39}$`)
	planForm = regexp.MustCompile(`^[a-z][a-z0-9_]{0,19}$`)
)

// reader reads one file.
type reader struct {
	faults
	lines []string // of the whole file
	cases CaseReader
	l     *Lesson
}

// Parse reads one lesson and checks all that can be checked without solving. The error is Errors: every fault with its
// line and column.
func Parse(data []byte, cases CaseReader) (*Lesson, error) {
	r := &reader{cases: cases, l: &Lesson{Sections: map[string]Section{}}}
	switch {
	case len(data) > MaxBytes:
		r.add(1, 1, "", strconv.Itoa(len(data))+" bytes", "the file is too large", "at most "+strconv.Itoa(MaxBytes)+" bytes", "a lesson is a few pages of text")
		return nil, r.err()
	case !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0:
		r.add(1, 1, "", "", "the file is not text", "Markdown in UTF-8", "check that this is a lesson")
		return nil, r.err()
	}
	r.lines = strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
	end := -1
	if strings.TrimRight(r.lines[0], " ") == "---" {
		for i := 1; i < len(r.lines); i++ {
			if strings.TrimRight(r.lines[i], " ") == "---" {
				end = i
				break
			}
		}
	}
	if end < 0 {
		r.add(1, 1, "", "", "the front matter is missing", "--- on the first line, keys and values, --- again", "copy the head of another lesson")
		return nil, r.err()
	}
	r.front("\n" + strings.Join(r.lines[1:end], "\n") + "\n") // one line for the ---: line numbers stay those of the file
	r.l.Sections = r.readSections(r.lines[end+1:], end+2)
	if len(r.list) == 0 {
		r.whole(end)
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return r.l, nil
}

// front reads the front matter.
func (r *reader) front(text string) {
	var doc yaml.Node
	dec := yaml.NewDecoder(strings.NewReader(text))
	if err := dec.Decode(&doc); err != nil {
		line, problem := 1, strings.TrimPrefix(err.Error(), "yaml: ")
		if errors.Is(err, io.EOF) {
			problem = "the front matter is empty"
		}
		if m := regexp.MustCompile(`line (\d+): `).FindStringSubmatch(problem); m != nil {
			line, _ = strconv.Atoi(m[1])
			problem = strings.Replace(problem, m[0], "", 1)
		}
		r.add(line, 1, "", "", "the front matter cannot be read: "+problem, "YAML", "check indentation and quotes")
		return
	}
	if len(doc.Content) != 1 || doc.Content[0].Kind != yaml.MappingNode {
		r.add(2, 1, "", "", "the front matter does not hold keys and values", "key: value lines", "copy the head of another lesson")
		return
	}
	version := false
	r.each("", doc.Content[0], func(key string, k, v *yaml.Node) {
		switch key {
		case "annuloscope_lesson":
			version = true
			if v.Value != strconv.Itoa(Version) {
				r.bad(v, key, "this version is not known", strconv.Itoa(Version), "write 1")
			}
		case "translates":
			r.l.Translates = r.flag(key, v)
		case "name":
			if r.l.Name = r.text(key, v); !nameForm.MatchString(r.l.Name) {
				r.bad(v, key, "not a name", "lower-case letters, digits and hyphens, at most 40", "shorten it")
			}
		case "language":
			if r.l.Language = r.text(key, v); r.l.Language != "en" && r.l.Language != "de" {
				r.bad(v, key, "not a language of the program", "en, de", "write en")
			}
		case "title":
			r.l.Title = r.text(key, v)
		case "summary":
			r.l.Summary = r.text(key, v)
		case "order":
			r.l.Order = int(r.number(key, v, 1, 999))
		case "minutes":
			r.l.Minutes = int(r.number(key, v, 1, 60))
		case "sources":
			r.each(key+".", v, func(path string, k, v *yaml.Node) {
				r.l.Sources = append(r.l.Sources, Source{k.Value, r.text(path, v)})
			})
		case "plans":
			r.each(key+".", v, func(path string, k, v *yaml.Node) { r.plan(path, k, v) })
		case "expect":
			r.items(key, v, func(path string, v *yaml.Node) {
				c := Claim{Text: r.text(path, v), line: v.Line, column: v.Column}
				c.cond = newParser(c.Text, &r.faults, inScalar(v)).condition()
				r.l.Expect = append(r.l.Expect, c)
			})
		case "prediction":
			r.question(key, v, &r.l.Prediction, &r.l.Compute)
		case "transfer":
			r.question(key, v, &r.l.Transfer, &r.l.After)
		case "computation":
			r.table(key, v, &r.l.Compute)
		case "evidence":
			r.items(key, v, r.evidence)
		case "explore":
			r.explore(key, v)
		default:
			r.unknown(key, k, "annuloscope_lesson", "translates", "name", "language", "order", "title", "summary", "minutes", "sources", "plans", "expect",
				"prediction", "computation", "evidence", "explore", "transfer")
		}
	})
	if !version && len(r.list) == 0 {
		r.add(2, 1, "annuloscope_lesson", "", "the version is missing", "1", "add the line annuloscope_lesson: 1")
	}
}

// each visits the entries of a mapping, refusing aliases and keys given twice.
func (r *reader) each(prefix string, n *yaml.Node, visit func(path string, k, v *yaml.Node)) {
	if n.Kind != yaml.MappingNode {
		r.bad(n, strings.TrimSuffix(prefix, "."), "not keys and values", "key: value lines", "indent them under the key")
		return
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Kind != yaml.ScalarNode || k.Value == "<<" || k.Anchor != "" || v.Kind == yaml.AliasNode || v.Anchor != "" {
			r.bad(k, prefix, "anchors, aliases and merged keys are not read", "plain keys and values", "write the value out")
			continue
		}
		if seen[k.Value] {
			r.bad(k, prefix+k.Value, "given twice", "once", "remove one")
			continue
		}
		seen[k.Value] = true
		visit(prefix+k.Value, k, v)
	}
}

func (r *reader) items(path string, n *yaml.Node, visit func(path string, v *yaml.Node)) {
	if n.Kind != yaml.SequenceNode {
		r.bad(n, path, "not a list", "lines beginning with -", "write a list")
		return
	}
	for i, v := range n.Content {
		if v.Kind == yaml.AliasNode || v.Anchor != "" {
			r.bad(v, path, "anchors and aliases are not read", "plain values", "write the value out")
			continue
		}
		visit(path+"."+strconv.Itoa(i+1), v)
	}
}

func (r *reader) bad(n *yaml.Node, path, problem, allowed, fix string) {
	r.add(n.Line, n.Column, path, n.Value, problem, allowed, fix)
}

func (r *reader) unknown(path string, k *yaml.Node, keys ...string) {
	r.add(k.Line, k.Column, path, "", "no such key", list(keys), "did you mean "+nearest(k.Value, keys)+"?")
}

const mostText = 1200 // characters of one text in the front matter; chosen

func (r *reader) text(path string, v *yaml.Node) string {
	if v.Kind != yaml.ScalarNode || strings.TrimSpace(v.Value) == "" || utf8.RuneCountInString(v.Value) > mostText {
		r.bad(v, path, "not a text", "one text of at most 1200 characters", "write a text")
		return ""
	}
	return strings.Join(strings.Fields(v.Value), " ")
}

func (r *reader) flag(path string, v *yaml.Node) bool {
	if v.Kind != yaml.ScalarNode || v.Tag != "!!bool" {
		r.bad(v, path, "not true or false", "true, false", "write true or false")
		return false
	}
	return v.Value == "true"
}

func (r *reader) number(path string, v *yaml.Node, lo, hi float64) float64 {
	x, err := strconv.ParseFloat(v.Value, 64)
	if v.Kind != yaml.ScalarNode || err != nil || !finite(x) || x < lo || x > hi {
		r.bad(v, path, "not a number in the range", strconv.FormatFloat(lo, 'g', -1, 64)+" to "+strconv.FormatFloat(hi, 'g', -1, 64), "write digits with a point")
		return lo
	}
	return x
}

// inScalar gives the place of an offset within a scalar on one line; in a scalar of several lines, its beginning.
func inScalar(v *yaml.Node) func(int) (int, int) {
	skip := 0
	if v.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		skip = 1
	}
	return func(o int) (int, int) {
		if v.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 || strings.Contains(v.Value, "\n") {
			return v.Line, v.Column
		}
		return v.Line, v.Column + skip + o
	}
}
