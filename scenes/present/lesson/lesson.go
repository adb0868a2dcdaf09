package lesson

import (
	"errors"
	"fmt"
	"sort"
	"strings"

	"annuloscope/sim/casefile"
	"annuloscope/sim/fault"
	"annuloscope/sim/valve"
)

// Version is the version of the form that this program reads.
const Version = 1

// Lesson is one lesson in one language.
type Lesson struct {
	Name       string // short, lower case; the same in every language
	Language   string // en or de
	Translates bool   // a translation: texts only, to be joined to its original by Translate
	Order      int
	Title      string
	Summary    string
	Minutes    int
	Sources    []Source
	Plans      []Plan
	Expect     []Claim
	Prediction Question
	Compute    Table
	Evidence   []Evidence
	Explore    Explore
	Transfer   Question
	After      Table // shown with the answer to the transfer question
	Sections   map[string]Section
}

// Source is a published source that the lesson uses.
type Source struct{ Key, Citation string }

// Plan is a case to be solved: a patient and what is done.
type Plan struct {
	Name, Title  string
	Case         casefile.Case
	line, column int
}

// Claim is something the text says about the model.
type Claim struct {
	Text         string
	cond         *node
	line, column int
}

// Question is a prediction: choices, or a number.
type Question struct {
	Choices      []Choice
	Number       *Number
	line, column int
}

// Choice is one answer; it is right when its condition holds.
type Choice struct {
	Text         string
	Because      Text // shown after the reveal to whoever took it
	when         *node
	line, column int
}

// Number is a quantity to be guessed.
type Number struct {
	Unit           string
	Min, Max, Step float64
	Decimals       int
	Within         float64 // how far off still counts as right
	of             *node
	line, column   int
}

// Table is what is shown of some plans.
type Table struct {
	Plans      []string
	Quantities []string
	Chart      string // a quantity shown as bars; may be empty
	Picture    string // a plan shown before and after; may be empty
	Diastole   bool   // the picture shows the open valve
	View       string // named view of the picture
}

// Evidence is one published result beside the model's.
type Evidence struct {
	Finding, Citation, Source string
	Subjects, Followed        string
	Published                 float64
	Spread                    string // as published; may be empty
	Unit                      string
	Decimals                  int
	Note                      string
	model                     *node
	line, column              int
}

// Explore says where free exploration takes place.
type Explore struct {
	Plan, Scene string
	Controls    []string // ids of knobs
}

// CaseReader reads a built-in case by its name.
type CaseReader func(name string) (casefile.Case, error)

// Results holds the report of each plan by name.
type Results map[string]*valve.Report

// Sections lists the sections of a lesson file in their order. All are required.
var sections = []string{"question", "prediction", "computation", "why", "evidence", "explore", "transfer", "answer"}

// SectionNames lists the sections of a lesson file in their order.
func SectionNames() []string { return append([]string(nil), sections...) }

// Plan returns the plan of that name.
func (l *Lesson) Plan(name string) (Plan, bool) {
	for _, p := range l.Plans {
		if p.Name == name {
			return p, true
		}
	}
	return Plan{}, false
}

// Errors is every fault of one lesson file, in the order of the lines.
type Errors []*fault.Field

// Error gives one line for each fault.
func (e Errors) Error() string {
	var lines []string
	for _, f := range e {
		lines = append(lines, f.Error())
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.As find a fault.Field.
func (e Errors) Unwrap() []error {
	out := make([]error, len(e))
	for i, f := range e {
		out[i] = f
	}
	return out
}

// faults collects what is wrong with a file.
type faults struct{ list Errors }

func (f *faults) add(line, column int, path, value, problem, allowed, fix string) {
	f.list = append(f.list, &fault.Field{Path: path, Value: value, Problem: problem, Allowed: allowed, Fix: fix, Line: line, Column: column})
}

// take adds an error from another package, at a place unless it has one.
func (f *faults) take(err error, line, column int) {
	var g *fault.Field
	if !errors.As(err, &g) {
		g = &fault.Field{Problem: err.Error()}
	}
	f.list = append(f.list, g.At(line, column))
}

func (f *faults) err() error {
	if len(f.list) == 0 {
		return nil
	}
	sort.SliceStable(f.list, func(i, j int) bool {
		a, b := f.list[i], f.list[j]
		return a.Line < b.Line || a.Line == b.Line && a.Column < b.Column
	})
	return f.list
}

func list(names []string) string { return strings.Join(names, ", ") }

func plural(n int, thing string) string {
	if n == 1 {
		return "one " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
