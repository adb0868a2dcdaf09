package lesson

import (
	"strconv"
	"strings"
)

// An expression is arithmetic over numbers and over the quantities of solved plans:
//
//	PLAN.QUANTITY                 after treatment, such as band.annulus.septal_lateral_mm
//	PLAN.before.QUANTITY          likewise before, after and change (after minus before)
//	PLAN: after.QUANTITY          the same with a colon, as it reads better in a text
//	+ − * / ( ) abs( )            arithmetic; only like units may be added or compared
//
// A condition compares: < <= > >= between numbers (20 < x < 60 is allowed), is and isnt between a word and a fact in
// words (deep.artery.risk is likely); "and" joins conditions.
type node struct {
	op           string // num, ref, word, + − * / abs neg, < <= > >= is isnt and
	args         []*node
	num          float64
	word         string // ref: as written; word: the word
	plan, state  string
	path         string
	line, column int
}

type token struct {
	text string
	at   int
}

// scan cuts an expression into tokens.
func scan(s string) []token {
	var out []token
	for i := 0; i < len(s); {
		c := s[i]
		switch {
		case c == ' ' || c == '\t' || c == '\n':
			i++
		case isWord(c):
			j := i
			for j < len(s) && (isWord(s[j]) || s[j] == '.') {
				j++
			}
			out = append(out, token{s[i:j], i})
			i = j
		case strings.HasPrefix(s[i:], "−"):
			out = append(out, token{"-", i})
			i += len("−")
		case (c == '<' || c == '>') && i+1 < len(s) && s[i+1] == '=':
			out = append(out, token{s[i : i+2], i})
			i += 2
		default:
			out = append(out, token{string(c), i})
			i++
		}
	}
	return out
}

func isWord(c byte) bool {
	return c == '_' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
}

// parser reads one expression; place gives line and column of an offset in it.
type parser struct {
	text   string
	tokens []token
	at     int
	depth  int
	place  func(offset int) (line, column int)
	f      *faults
	failed bool
}

const deepest = 40 // nesting of an expression; chosen

func newParser(text string, f *faults, place func(int) (int, int)) *parser {
	return &parser{text: text, tokens: scan(text), place: place, f: f}
}

func (p *parser) peek() string {
	if p.at < len(p.tokens) {
		return p.tokens[p.at].text
	}
	return ""
}

func (p *parser) offset() int {
	if p.at < len(p.tokens) {
		return p.tokens[p.at].at
	}
	return len(p.text)
}

func (p *parser) fail(problem string) *node {
	if !p.failed {
		line, column := p.place(p.offset())
		p.f.add(line, column, "expression", p.text, problem, "numbers, PLAN.QUANTITY, + - * / ( ) abs( ), compared by < <= > >= or is, joined by and", "see assets/lessons/README.md")
	}
	p.failed = true
	return &node{op: "num"}
}

// make returns a node at the token to be read.
func (p *parser) make(op string, args ...*node) *node {
	line, column := p.place(p.offset())
	return &node{op: op, args: args, line: line, column: column}
}

// condition reads comparisons joined by and.
func (p *parser) condition() *node {
	n := p.comparison()
	for p.peek() == "and" && !p.failed {
		a := p.make("and", n, nil)
		p.at++
		a.args[1] = p.comparison()
		n = a
	}
	if p.peek() != "" {
		p.fail("this is not expected here: " + p.peek())
	}
	return n
}

func (p *parser) comparison() *node {
	left := p.sum()
	var out *node
	for !p.failed {
		op := p.peek()
		switch op {
		case "<", "<=", ">", ">=":
			n := p.make(op, left, nil)
			p.at++
			n.args[1] = p.sum()
			left, out = n.args[1], join(out, n)
			continue
		case "is", "isnt":
			n := p.make(op, left, nil)
			p.at++
			w := p.make("word")
			if w.word = p.peek(); w.word == "" {
				p.fail("a word is missing after " + op)
			}
			p.at++
			n.args[1] = w
			return join(out, n)
		}
		if out == nil {
			p.fail("a comparison is missing")
		}
		break
	}
	return out
}

func join(a, b *node) *node {
	if a == nil {
		return b
	}
	return &node{op: "and", args: []*node{a, b}, line: b.line, column: b.column}
}

// value reads arithmetic alone.
func (p *parser) value() *node {
	n := p.sum()
	if p.peek() != "" {
		p.fail("this is not expected here: " + p.peek())
	}
	return n
}

func (p *parser) sum() *node {
	if p.depth++; p.depth > deepest {
		return p.fail("nested too deeply")
	}
	defer func() { p.depth-- }()
	n := p.product()
	for (p.peek() == "+" || p.peek() == "-") && !p.failed {
		m := p.make(p.peek(), n, nil)
		p.at++
		m.args[1] = p.product()
		n = m
	}
	return n
}

func (p *parser) product() *node {
	n := p.atom()
	for (p.peek() == "*" || p.peek() == "/") && !p.failed {
		m := p.make(p.peek(), n, nil)
		p.at++
		m.args[1] = p.atom()
		n = m
	}
	return n
}

func (p *parser) atom() *node {
	t := p.peek()
	switch {
	case t == "-":
		if p.depth++; p.depth > deepest {
			return p.fail("nested too deeply")
		}
		n := p.make("neg", nil)
		p.at++
		n.args[0] = p.atom()
		p.depth--
		return n
	case t == "(" || t == "abs":
		n := p.make("abs", nil)
		p.at++
		if t == "abs" {
			if p.peek() != "(" {
				return p.fail("( is missing after abs")
			}
			p.at++
		}
		in := p.sum()
		if p.peek() != ")" {
			return p.fail(") is missing")
		}
		p.at++
		if n.args[0] = in; t == "(" {
			return in
		}
		return n
	case t == "":
		return p.fail("a value is missing")
	case t[0] >= '0' && t[0] <= '9':
		n := p.make("num")
		v, err := strconv.ParseFloat(t, 64)
		if err != nil {
			return p.fail("not a number: " + t)
		}
		n.num = v
		p.at++
		return n
	case isWord(t[0]):
		return p.reference()
	}
	return p.fail("this is not expected here: " + t)
}

// reference reads PLAN.STATE.QUANTITY.
func (p *parser) reference() *node {
	n := p.make("ref")
	word := p.peek()
	p.at++
	if p.peek() == ":" {
		p.at++
		if next := p.peek(); next != "" && isWord(next[0]) {
			word += "." + next
			p.at++
		}
	}
	n.word = word
	plan, rest, _ := strings.Cut(word, ".")
	n.plan, n.state, n.path = plan, "after", rest
	if state, path, ok := strings.Cut(rest, "."); ok && (state == "before" || state == "after" || state == "change") {
		n.state, n.path = state, path
	}
	return n
}
