package lesson

import (
	"fmt"
	"math"
)

// examine checks an expression without solving: plans and quantities known, only like units added or compared, words
// compared with words. It returns the kind of its value.
func (l *Lesson) examine(n *node, f *faults) Value {
	bad := func(problem, allowed, fix string) Value {
		f.add(n.line, n.column, "expression", n.word, problem, allowed, fix)
		return Value{plain: true}
	}
	var a, b Value
	if len(n.args) > 0 {
		a = l.examine(n.args[0], f)
	}
	if len(n.args) > 1 {
		b = l.examine(n.args[1], f)
	}
	switch n.op {
	case "num":
		return Value{plain: true, Unit: "1"}
	case "word":
		return Value{isWord: true}
	case "ref":
		if _, ok := l.Plan(n.plan); !ok {
			var names []string
			for _, p := range l.Plans {
				names = append(names, p.Name)
			}
			return bad("no such plan: "+n.plan, list(names), "did you mean "+nearest(n.plan, names)+"?")
		}
		q, ok := findFact(n.path)
		if !ok {
			names := paths()
			return bad("no such quantity: "+n.path, "the paths of `annuloscope glossary` and "+list(FactPaths()), "did you mean "+nearest(n.path, names)+"?")
		}
		if q.word != nil && n.state == "change" {
			return bad("a word has no change", "before, after", "compare it with is")
		}
		return Value{Unit: q.unit, Decimals: q.decimals, isWord: q.word != nil}
	case "is", "isnt":
		if !a.isWord {
			return bad("only facts in words are compared with is", list([]string{"artery.risk", "opening.stenosis", "regurgitation.grade", "rule.…"}), "compare numbers with < or >")
		}
		return Value{}
	case "and":
		return Value{}
	}
	if a.isWord || b.isWord {
		return bad("a word is no number", "a quantity", "compare words with is")
	}
	switch n.op {
	case "neg", "abs":
		return a
	case "*":
		switch {
		case a.plain || a.Unit == "1":
			return b
		case b.plain || b.Unit == "1":
			return a
		}
		return Value{Unit: a.Unit + "·" + b.Unit, Decimals: max(a.Decimals, b.Decimals)}
	case "/":
		switch {
		case b.plain || b.Unit == "1":
			return a
		case a.Unit == b.Unit:
			return Value{Unit: "1", Decimals: 2}
		}
		return Value{Unit: a.Unit + "/" + b.Unit, Decimals: max(a.Decimals, b.Decimals)}
	}
	if !a.plain && !b.plain && a.Unit != b.Unit { // + − and the comparisons
		return bad(fmt.Sprintf("%s and %s do not go together", a.Unit, b.Unit), "quantities of one unit", "divide, or choose another quantity")
	}
	if a.plain {
		a.Unit, a.Decimals, a.plain = b.Unit, b.Decimals, b.plain
	}
	a.Decimals = max(a.Decimals, b.Decimals)
	return a
}

// eval computes arithmetic; ok is false while a plan is not solved.
func (n *node) eval(res Results) (Value, bool) {
	switch n.op {
	case "num":
		return Value{Num: n.num, Unit: "1", plain: true}, true
	case "word":
		return Value{Word: n.word, isWord: true}, true
	case "ref":
		return n.of(res)
	}
	a, ok := n.args[0].eval(res)
	if !ok {
		return a, false
	}
	if n.op == "neg" || n.op == "abs" {
		if a.Num = -a.Num; n.op == "abs" {
			a.Num = math.Abs(a.Num)
		}
		return a, true
	}
	b, ok := n.args[1].eval(res)
	if !ok {
		return b, false
	}
	switch n.op {
	case "+":
		a.Num += b.Num
	case "-":
		a.Num -= b.Num
	case "*":
		a.Num *= b.Num
	case "/":
		a.Num /= b.Num
	}
	return a, true
}

// holds tells whether a condition is true; ok is false while a plan is not solved. A quantity that does not apply (NaN)
// makes every comparison false.
func (n *node) holds(res Results) (yes, ok bool) {
	if n.op == "and" {
		a, okA := n.args[0].holds(res)
		b, okB := n.args[1].holds(res)
		return a && b, okA && okB
	}
	a, okA := n.args[0].eval(res)
	b, okB := n.args[1].eval(res)
	if !okA || !okB {
		return false, false
	}
	switch n.op {
	case "<":
		yes = a.Num < b.Num
	case "<=":
		yes = a.Num <= b.Num
	case ">":
		yes = a.Num > b.Num
	case ">=":
		yes = a.Num >= b.Num
	case "is":
		yes = a.Word == b.Word
	case "isnt":
		yes = a.Word != b.Word
	}
	return yes, true
}

// values lists what the references of an expression are worth, for an error message.
func (n *node) values(res Results, seen map[string]bool) []string {
	var out []string
	if n.op == "ref" && !seen[n.word] {
		seen[n.word] = true
		if v, ok := n.of(res); ok && v.isWord {
			out = append(out, n.word+" is "+v.Word)
		} else if ok {
			out = append(out, fmt.Sprintf("%s = %.4g", n.word, v.Num))
		}
	}
	for _, a := range n.args {
		out = append(out, a.values(res, seen)...)
	}
	return out
}

// missing tells whether a reference of a solved expression does not apply.
func (n *node) missing(res Results) bool {
	if n.op == "ref" {
		v, ok := n.of(res)
		return ok && !v.isWord && math.IsNaN(v.Num)
	}
	for _, a := range n.args {
		if a.missing(res) {
			return true
		}
	}
	return false
}
