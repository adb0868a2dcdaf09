package study

import (
	"encoding/json"
	"fmt"

	"annuloscope/sim/casefile"
)

// DocumentVersion is the version this program writes. Older ones keep opening.
const DocumentVersion = 1

// View is how the valve is looked at.
type View struct {
	Azimuth   float64 `json:"azimuth"`   // degrees, draw.Camera
	Elevation float64 `json:"elevation"` // degrees
	Zoom      float64 `json:"zoom"`      // 1: the valve fills the picture
	Named     string  `json:"named"`
	Mode      string  `json:"mode"`  // beat, systole, diastole, scrub
	Phase     float64 `json:"phase"` // share of the beat, 0 to 1, from the start of systole
	Speed     float64 `json:"speed"`
	Station   float64 `json:"station"`       // of the cut, −1 to 1
	Map       string  `json:"map,omitempty"` // of the comparison: empty (the valve itself), contact, gap, contact.change, gap.change
	Engine    string  `json:"engine"`        // of the leaflets at rest: sections, shell
	Field     string  `json:"field"`         // what colours the shell's leaflets: none, contact, gap, tension
}

// Settings are a person's own.
type Settings struct {
	Theme    string  `json:"theme"`
	Language string  `json:"language"`
	Scale    float64 `json:"scale"`      // 1 to 2
	Still    bool    `json:"still"`      // reduced motion: nothing moves by itself
	OneKey   bool    `json:"single_key"` // shortcuts of one letter
}

// Document is everything that can be shared.
type Document struct {
	Version  int      `json:"version"`
	Scene    string   `json:"scene"`
	Case     string   `json:"case"` // as casefile.Encode writes it
	View     View     `json:"view"`
	Settings Settings `json:"settings"`
	Plans    []string `json:"plans,omitempty"` // as Plan.String writes them
	// Lecture is the lectern's running order, as its package writes it. It is kept between two starts and is not part of
	// a shared state.
	Lecture json.RawMessage `json:"lecture,omitempty"`

	Open    casefile.Case `json:"-"` // Case, read by Decode
	Compare []Plan        `json:"-"` // Plans, read by Decode
}

// DefaultView is the view from the atrium, held in systole.
func DefaultView() View {
	return View{Elevation: 90, Zoom: 1, Named: "atrium", Mode: "systole", Phase: 0.2, Speed: 1, Engine: "sections", Field: "none"}
}

// DefaultSettings are those of a new person.
func DefaultSettings() Settings {
	return Settings{Theme: "light", Language: "en", Scale: 1, OneKey: true}
}

const mostDocument = 1 << 20 // bytes accepted

// Decode reads a document. Values of view and settings that are unknown or out of range are replaced by the defaults,
// plans that cannot be used are left out, and all of it is named in warnings; a case that cannot be used is an error.
func Decode(data []byte) (d Document, warnings []string, err error) {
	d = Document{View: DefaultView(), Settings: DefaultSettings()}
	if len(data) > mostDocument {
		return d, nil, fmt.Errorf("study: the file has %d bytes, at most %d are read", len(data), mostDocument)
	}
	if err := json.Unmarshal(data, &d); err != nil {
		return d, nil, fmt.Errorf("study: not a shared state: %w", err)
	}
	if d.Version < 1 || d.Version > DocumentVersion {
		return d, nil, fmt.Errorf("study: version %d is unknown, this program reads 1 to %d", d.Version, DocumentVersion)
	}
	v, dv, st, ds := &d.View, DefaultView(), &d.Settings, DefaultSettings()
	for _, r := range []struct {
		name        string
		at          *float64
		lo, hi, def float64
	}{
		{"view.azimuth", &v.Azimuth, -360, 360, dv.Azimuth}, {"view.elevation", &v.Elevation, -90, 90, dv.Elevation},
		{"view.zoom", &v.Zoom, 0.4, 4, dv.Zoom}, {"view.phase", &v.Phase, 0, 1, dv.Phase}, {"view.speed", &v.Speed, 0.05, 2, dv.Speed},
		{"view.station", &v.Station, -1, 1, 0}, {"settings.scale", &st.Scale, 1, 2, ds.Scale},
	} {
		if !(*r.at >= r.lo && *r.at <= r.hi) {
			warnings = append(warnings, fmt.Sprintf("%s: %g is outside %g to %g", r.name, *r.at, r.lo, r.hi))
			*r.at = r.def
		}
	}
	for _, r := range []struct {
		name  string
		at    *string
		known []string
	}{
		{"view.map", &v.Map, []string{"", "contact", "gap", "contact.change", "gap.change", "tension", "tension.change"}}, {"view.engine", &v.Engine, []string{"sections", "shell"}}, {"view.field", &v.Field, []string{"none", "contact", "gap", "tension"}},
		{"view.mode", &v.Mode, []string{"systole", "beat", "diastole", "scrub"}}, {"settings.theme", &st.Theme, []string{"light", "dark", "projector"}},
		{"settings.language", &st.Language, []string{"en", "de", "double"}},
	} {
		ok := false
		for _, k := range r.known {
			ok = ok || k == *r.at
		}
		if !ok {
			warnings = append(warnings, fmt.Sprintf("%s: %q is unknown", r.name, *r.at))
			*r.at = r.known[0]
		}
	}
	if d.Open, err = casefile.Decode([]byte(d.Case)); err != nil {
		return d, warnings, err
	}
	return d, append(warnings, d.readPlans()...), nil
}

// readPlans reads the plans, leaves out those that cannot be used and says why. One that does not fit this patient is
// kept, since it may fit another, and named too.
func (d *Document) readPlans() (warnings []string) {
	d.Compare = nil
	for i, text := range d.Plans {
		p, err := ParsePlan(text)
		if err == nil && len(d.Compare) >= MostPlans {
			err = fmt.Errorf("more than %d plans", MostPlans)
		}
		if err != nil {
			warnings = append(warnings, fmt.Sprintf("plans: number %d is left out: %v", i+1, err))
			continue
		}
		d.Compare = append(d.Compare, p)
		if err := p.On(d.Open).Validate(); err != nil {
			warnings = append(warnings, fmt.Sprintf("plans: %q does not fit this patient: %v", p.Name, err))
		}
	}
	return warnings
}

// Encode writes a document with Open as its case; equal documents give equal bytes.
func (d Document) Encode() []byte {
	d.Version, d.Case = DocumentVersion, string(casefile.Encode(d.Open))
	d.Plans = nil
	for _, p := range d.Compare {
		d.Plans = append(d.Plans, p.String())
	}
	b, err := json.MarshalIndent(d, "", " ")
	if err != nil {
		panic("study: " + err.Error()) // only numbers that JSON lacks could fail, and those are left out
	}
	return append(b, '\n')
}

// Keeper keeps a document between two starts of the program.
type Keeper interface {
	Keep(document []byte) error
}
