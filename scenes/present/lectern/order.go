package lectern

import (
	"encoding/json"
	"errors"
	"fmt"

	"annuloscope/scenes/present/study"
	"annuloscope/sim/valve"
)

// OrderVersion is the version of the file that this program writes. Older ones keep opening.
const OrderVersion = 1

// Limits of a file; chosen.
const (
	mostSteps = 100
	mostOrder = 4 << 20 // bytes
	mostWords = 600     // characters of one text
	mostKept  = 1 << 19 // bytes kept between two starts; a longer order must be saved as a file
)

// Order is a running order.
type Order struct {
	Title string
	Steps []Step
}

// Step is one state with what belongs to it.
type Step struct {
	Title  string
	Ask    string // shown to the audience
	Note   string // for the presenter only
	Number string // path of the quantity shown large; empty for none
	State  study.Document
}

type file struct {
	Version int        `json:"annuloscope_order"`
	Title   string     `json:"title"`
	Steps   []fileStep `json:"steps"`
}

type fileStep struct {
	Title  string          `json:"title"`
	Ask    string          `json:"ask"`
	Note   string          `json:"note"`
	Number string          `json:"number"`
	State  json.RawMessage `json:"state"`
}

// Encode writes an order as a file; equal orders give equal bytes.
func (o Order) Encode() []byte {
	f := file{Version: OrderVersion, Title: o.Title, Steps: []fileStep{}}
	for _, s := range o.Steps {
		f.Steps = append(f.Steps, fileStep{s.Title, s.Ask, s.Note, s.Number, s.State.Encode()})
	}
	b, err := json.MarshalIndent(f, "", " ")
	if err != nil {
		panic("lectern: " + err.Error()) // the states are JSON of our own
	}
	return append(b, '\n')
}

// Is tells whether a file holds a running order.
func Is(data []byte) bool {
	var f struct {
		Version *int `json:"annuloscope_order"`
	}
	return json.Unmarshal(data, &f) == nil && f.Version != nil
}

// Decode reads a file. Unknown numbers and values of a state out of range are named in warnings; a step whose case
// cannot be used is an error.
func Decode(data []byte) (o Order, warnings []string, err error) {
	if len(data) > mostOrder {
		return o, nil, fmt.Errorf("lectern: the file has %d bytes, at most %d are read", len(data), mostOrder)
	}
	var f file
	if err := json.Unmarshal(data, &f); err != nil {
		return o, nil, fmt.Errorf("lectern: not a running order: %w", err)
	}
	if f.Version < 1 || f.Version > OrderVersion {
		return o, nil, fmt.Errorf("lectern: version %d is unknown, this program reads 1 to %d", f.Version, OrderVersion)
	}
	if len(f.Steps) == 0 {
		return o, nil, errors.New("lectern: the running order has no steps")
	}
	if len(f.Steps) > mostSteps {
		return o, nil, fmt.Errorf("lectern: %d steps, at most %d are read", len(f.Steps), mostSteps)
	}
	o.Title = short(f.Title)
	for i, s := range f.Steps {
		doc, w, err := study.Decode(s.State)
		if err != nil {
			return Order{}, nil, fmt.Errorf("lectern: step %d: %w", i+1, err)
		}
		if _, ok := valve.FindQuantity(s.Number); !ok && s.Number != "" {
			w = append(w, fmt.Sprintf("number: %q is unknown", s.Number))
			s.Number = ""
		}
		for _, text := range w {
			warnings = append(warnings, fmt.Sprintf("step %d: %s", i+1, text))
		}
		o.Steps = append(o.Steps, Step{short(s.Title), short(s.Ask), short(s.Note), s.Number, doc})
	}
	return o, warnings, nil
}

func short(s string) string {
	if r := []rune(s); len(r) > mostWords {
		return string(r[:mostWords])
	}
	return s
}
