package program

import (
	"encoding/json"
	"errors"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/lectern"
	"annuloscope/scenes/present/link"
	"annuloscope/scenes/present/relief"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

var _ present.Opener = (*Program)(nil)

// Parameter is one thing that an address may ask for after its question mark. Parameters is the only table of them.
type Parameter struct {
	Name    string
	Example string
	Help    string                                 // key of the words
	allowed func(p *Program) []string              // nil: any text
	take    func(p *Program, value string)         // nil: taken together with the case
	edit    func(c *casefile.Case, v string) error // a change of the case
}

// Parameters is the table.
func Parameters() []Parameter {
	yes := func(*Program) []string { return []string{"1", "0"} }
	return []Parameter{
		{Name: "lang", Example: "lang=de", Help: "address.lang", allowed: func(p *Program) []string { return []string{"en", "de", "double"} },
			take: func(p *Program, v string) { p.d.P.Language = v; p.Settings() }},
		{Name: "theme", Example: "theme=projector", Help: "address.theme", allowed: func(*Program) []string { return theme.Names() },
			take: func(p *Program, v string) { p.d.P.Theme = v; p.Settings() }},
		{Name: "scale", Example: "scale=150", Help: "address.scale", allowed: func(*Program) []string {
			return []string{"100", "110", "120", "130", "140", "150", "160", "170", "180", "190", "200"}
		}, take: func(p *Program, v string) { n, _ := strconv.Atoi(v); p.d.P.Scale = float64(n) / 100; p.Settings() }},
		{Name: "still", Example: "still=1", Help: "address.still", allowed: yes, take: func(p *Program, v string) { p.d.P.Still = v == "1" }},
		{Name: "minimal", Example: "minimal=1", Help: "address.minimal", allowed: yes, take: func(p *Program, v string) { p.minimal = v == "1" }},
		{Name: "case", Example: "case=high-sinus", Help: "address.case", allowed: func(p *Program) (all []string) {
			for _, c := range p.cases {
				all = append(all, c.Name)
			}
			return all
		}},
		{Name: "repair", Example: "repair=sinus-band,shortening_mm=20", Help: "address.repair", edit: func(c *casefile.Case, v string) error {
			s, err := repair.Parse(v)
			if err == nil {
				c.Repairs = append(c.Repairs, s)
			}
			return err
		}},
		{Name: "set", Example: "set=annulus.septal_lateral_mm=34", Help: "address.set", edit: func(c *casefile.Case, text string) error {
			path, value, _ := strings.Cut(text, "=")
			v, err := strconv.ParseFloat(value, 64)
			if err != nil {
				return errors.New("set=" + text + ": path=number")
			}
			return c.Set(path, v)
		}},
		{Name: "scene", Example: "scene=beat", Help: "address.scene", allowed: func(p *Program) []string { return p.names },
			take: func(p *Program, v string) { p.at, p.page = slices.Index(p.names, v), "" }},
		{Name: "view", Example: "view=ventricle", Help: "address.view", allowed: func(*Program) (all []string) {
			for _, v := range relief.Views() {
				all = append(all, v.Name)
			}
			return all
		}, take: func(p *Program, v string) { p.d.Look(v) }},
		{Name: "mode", Example: "mode=diastole", Help: "address.mode", allowed: func(*Program) []string { return desk.Modes() },
			take: func(p *Program, v string) { p.d.Hold(v) }},
		{Name: "lecture", Example: "lecture=1", Help: "address.lecture", allowed: func(p *Program) (all []string) {
			for i := range lectern.Demonstration(p.d.W(), p.cases).Steps {
				all = append(all, strconv.Itoa(i+1))
			}
			return all
		}, take: func(p *Program, v string) { n, _ := strconv.Atoi(v); p.demonstrate(n - 1) }},
		{Name: "page", Example: "page=knows", Help: "address.page", allowed: func(*Program) []string { return Pages() },
			take: func(p *Program, v string) { p.open(v) }},
	}
}

const mostQuery = 8 << 10 // characters of an address's query that are read; chosen

// Open brings the program into the state of an address. What it does not understand it says in the message line.
func (p *Program) Open(fragment, query string) {
	p.dirty = true
	if link.Is(fragment) {
		data, err := link.Decode(fragment)
		if err != nil {
			p.d.Say(p.d.W().F("address.link", "why", p.d.W().Problem(err.Error())), true)
		} else {
			p.Load(data)
		}
	}
	if len(query) > mostQuery {
		p.d.Say(p.d.W().F("address.long", "n", mostQuery), true)
		return
	}
	values, err := url.ParseQuery(query)
	bad := ""
	if err != nil {
		bad = p.d.W().F("address.bad", "name", "?", "value", query, "allowed", "name=value&name=value")
	}
	if say := p.take(values); say != "" {
		bad = say
	}
	if bad != "" {
		p.d.Say(readable(bad), true)
	}
}

const mostSaid = 400 // characters of a message that repeats what an address says; chosen

// readable makes whatever an address held fit to be shown: text without control characters, of readable length.
func readable(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) { // format characters could turn the line round
			return '\ufffd'
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	if r := []rune(s); len(r) > mostSaid {
		return string(r[:mostSaid]) + "…"
	}
	return s
}

// take does what the parameters ask for and returns what to say of those it cannot use.
func (p *Program) take(values url.Values) (bad string) {
	all, w := Parameters(), func() *words.Words { return p.d.W() }
	var known []string
	for _, q := range all {
		known = append(known, q.Name)
	}
	for _, name := range sorted(values) {
		if !slices.Contains(known, name) && name != "notes" {
			bad = w().F("address.unknown", "name", name, "known", strings.Join(known, ", "))
		}
	}
	c, edited := p.d.S.Case.Clone(), false
	for _, q := range all {
		for _, v := range values[q.Name] {
			if q.allowed != nil && !slices.Contains(q.allowed(p), v) {
				bad = w().F("address.bad", "name", q.Name, "value", v, "allowed", strings.Join(q.allowed(p), ", "))
				continue
			}
			switch {
			case q.edit != nil:
				next := c.Clone()
				err := q.edit(&next, v)
				if err == nil {
					err = next.Validate()
				}
				if err != nil {
					bad = w().F("message.invalid", "why", w().Problem(err.Error()))
					continue
				}
				c, edited = next, true
			case q.Name == "case":
				c, edited = p.builtIn(v), true
			}
		}
	}
	if edited {
		if err := p.d.S.Open(c); err != nil {
			bad = w().F("message.invalid", "why", w().Problem(err.Error()))
		}
	}
	for _, q := range all {
		for _, v := range values[q.Name] {
			if q.take != nil && slices.Contains(q.allowed(p), v) {
				q.take(p, v)
			}
		}
	}
	return bad
}

func sorted(values url.Values) []string {
	var names []string
	for n := range values {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}

func (p *Program) builtIn(name string) casefile.Case {
	for _, c := range p.cases {
		if c.Name == name {
			return c.Clone()
		}
	}
	panic("program: no built-in case " + name)
}

// IsShared tells whether a file holds a shared state, a saved link to one, or a running order, rather than a case.
func IsShared(data []byte) bool {
	if link.In(string(data)) != "" || lectern.Is(data) {
		return true
	}
	var d struct {
		Version *int             `json:"version"`
		View    *json.RawMessage `json:"view"`
	}
	return json.Unmarshal(data, &d) == nil && d.Version != nil && d.View != nil
}

// OpenFile opens what a file holds: a shared state, a link to one, a running order or a case.
func (p *Program) OpenFile(data []byte) {
	p.dirty = true
	if f := link.In(string(data)); f != "" {
		p.Open(f, "")
		return
	}
	if lectern.Is(data) {
		p.openOrder(data)
		return
	}
	if IsShared(data) {
		p.Load(data)
		return
	}
	c, err := decodeCase(data)
	if err == nil {
		err = p.d.S.Open(c)
	}
	if err != nil {
		p.d.Refuse(err)
		return
	}
	p.d.Say(p.d.W().T("message.loaded"), false)
}

// SharedCase returns the case in a file for which IsShared is true: of a running order that of its first step.
func SharedCase(data []byte) (casefile.Case, error) {
	if f := link.In(string(data)); f != "" {
		var err error
		if data, err = link.Decode(f); err != nil {
			return casefile.Case{}, err
		}
	}
	if lectern.Is(data) {
		o, _, err := lectern.Decode(data)
		if err != nil {
			return casefile.Case{}, err
		}
		return o.Steps[0].State.Open, nil
	}
	d, _, err := study.Decode(data)
	return d.Open, err
}
