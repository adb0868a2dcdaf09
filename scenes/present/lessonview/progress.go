package lessonview

import (
	"encoding/json"
	"fmt"
	"math"

	"annuloscope/sim/valve"
)

// ProgressVersion is the version of the kept progress.
const ProgressVersion = 1

// Progress is what is kept of a person's way through the lessons.
type Progress struct {
	Notice  string  `json:"notice"`
	Version int     `json:"version"`
	Lessons []Entry `json:"lessons"`
}

// Entry is the progress in one lesson.
type Entry struct {
	Lesson     string  `json:"lesson"`
	Seen       int     `json:"pages_seen"` // pages that were reached
	Done       bool    `json:"done"`
	Prediction *Answer `json:"prediction,omitempty"`
	Transfer   *Answer `json:"transfer,omitempty"`
}

// Answer is what a person predicted: the number of the choice from 1, or a number.
type Answer struct {
	Choice int      `json:"choice,omitempty"`
	Number *float64 `json:"number,omitempty"`
	Agreed *bool    `json:"agreed,omitempty"` // with the model, when it was revealed
}

const mostProgress = 64 << 10 // bytes read

// ReadProgress reads kept progress. Entries that make no sense are left out.
func ReadProgress(data []byte) (Progress, error) {
	p := Progress{Notice: valve.Notice, Version: ProgressVersion}
	if len(data) > mostProgress {
		return p, fmt.Errorf("lessonview: the progress has %d bytes, at most %d are read", len(data), mostProgress)
	}
	var in Progress
	if err := json.Unmarshal(data, &in); err != nil {
		return p, fmt.Errorf("lessonview: not kept progress: %w", err)
	}
	if in.Version != ProgressVersion {
		return p, fmt.Errorf("lessonview: version %d of progress is unknown, this program reads %d", in.Version, ProgressVersion)
	}
	seen := map[string]bool{}
	for _, e := range in.Lessons {
		if e.Lesson == "" || seen[e.Lesson] || e.Seen < 0 || e.Seen > pages || e.Prediction.bad() || e.Transfer.bad() {
			continue
		}
		seen[e.Lesson] = true
		p.Lessons = append(p.Lessons, e)
	}
	return p, nil
}

func (a *Answer) bad() bool {
	return a != nil && (a.Choice < 0 || a.Choice > 9 || a.Choice == 0 && a.Number == nil || a.Number != nil && (math.IsNaN(*a.Number) || math.IsInf(*a.Number, 0)))
}

// Encode writes progress; the same progress gives the same bytes.
func (p Progress) Encode() []byte {
	p.Notice, p.Version = valve.Notice, ProgressVersion
	if p.Lessons == nil {
		p.Lessons = []Entry{}
	}
	b, err := json.MarshalIndent(p, "", " ")
	if err != nil {
		panic("lessonview: " + err.Error()) // numbers that JSON lacks are refused above
	}
	return append(b, '\n')
}

// entry returns the entry of a lesson, making one.
func (p *Progress) entry(name string) *Entry {
	for i := range p.Lessons {
		if p.Lessons[i].Lesson == name {
			return &p.Lessons[i]
		}
	}
	p.Lessons = append(p.Lessons, Entry{Lesson: name})
	return &p.Lessons[len(p.Lessons)-1]
}

// find returns the entry of a lesson, or an empty one.
func (p *Progress) find(name string) Entry {
	for _, e := range p.Lessons {
		if e.Lesson == name {
			return e
		}
	}
	return Entry{Lesson: name}
}
