package compareview

import (
	"math"
	"slices"
	"strings"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present/desk"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/present/theme"
	"annuloscope/scenes/present/widget"
	"annuloscope/scenes/present/words"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

func solved(t *testing.T) *View {
	t.Helper()
	data, err := assets.Cases.ReadFile("cases/functional.yaml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := casefile.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	th, _ := theme.Named("light")
	s := study.New(study.NewSync(study.NewFull()), c)
	s.Settle()
	if err := s.AddPlan(study.Plan{Name: "band", Repairs: []repair.Step{repair.Must(repair.SinusBand)}}); err != nil {
		t.Fatal(err)
	}
	v := New(desk.New(widget.New(th, words.For(words.English)), s), study.NewSync(study.NewFull()))
	v.c.Settle(c, s.Plans())
	return v
}

// The map's values are the sections' own; a change is the plan's section minus the untreated valve at the same place; one
// scale holds all columns, with zero in the middle of a change.
func TestTheMapIsWhatTheSectionsSay(t *testing.T) {
	v := solved(t)
	for _, m := range shows[1:] {
		v.d.V.Map = m.name
		v.load()
		if m.of == nil { // of the leaflets in three dimensions alone
			if v.field.values[0] != nil || v.shown().name != "" {
				t.Errorf("%s: a map of sections that have none", m.name)
			}
			continue
		}
		most := 0.0
		for i, values := range v.field.values {
			st := v.c.Columns[i].Report.Scene.After.Stations
			base := v.c.Columns[0].Report.Scene.After.Stations
			if len(values) != len(st) || len(st) == 0 {
				t.Fatalf("%s, column %d: %d values for %d sections", m.name, i, len(values), len(st))
			}
			for k := range st {
				want := m.of(&st[k])
				if m.change {
					near := 0 // by brute force: the two neighbours, weighted
					for j := range base {
						if base[j].S <= st[k].S {
							near = j
						}
					}
					next := min(near+1, len(base)-1)
					w := 0.0
					if base[next].S > base[near].S {
						w = (st[k].S - base[near].S) / (base[next].S - base[near].S)
					}
					want -= (1-w)*m.of(&base[near]) + w*m.of(&base[next])
				}
				if math.Abs(values[k]-want) > 1e-9 {
					t.Fatalf("%s, column %d at %.2f: %v, want %v", m.name, i, st[k].S, values[k], want)
				}
				most = math.Max(most, math.Abs(values[k]))
			}
		}
		a := v.field.axis
		if a.Max < most || m.change && a.Min != -a.Max || !m.change && a.Min != 0 {
			t.Errorf("%s: scale %v to %v for values to %v", m.name, a.Min, a.Max, most)
		}
		if most < 0.1 {
			t.Errorf("%s: nothing on the map", m.name)
		}
		if m.change && v.colour(0) != theme.Diverging(0) {
			t.Errorf("%s: no change has a colour", m.name)
		}
	}
}

// What is painted is the map: the leaflets of the pose carry its colours, unshaded, and only while it is asked for.
func TestTheLeafletsCarryTheMap(t *testing.T) {
	v := solved(t)
	v.d.V.Map = "contact"
	v.load()
	u := v.d.U
	l := new(draw.List)
	u.Begin(l, 1280, 800)
	v.Build(draw.Rect{W: 1280, H: 800})
	u.End()
	seen, flat := map[draw.Color]bool{}, 0
	for i := range l.Ops {
		if l.Ops[i].Kind != draw.KindScene {
			continue
		}
		for _, s := range l.Ops[i].Scene.Surfaces {
			if s.Flat {
				flat++
				for _, c := range s.Colors {
					seen[c] = true
				}
			}
		}
	}
	if flat != 4 { // two valves of two leaflets
		t.Errorf("%d unshaded surfaces", flat)
	}
	for _, values := range v.field.values {
		for _, x := range values {
			if !seen[v.colour(x)] {
				t.Fatalf("the colour of %v mm is not in the picture", x)
			}
		}
	}
	v.d.V.Map = ""
	u.Begin(l, 1280, 800)
	v.Build(draw.Rect{W: 1280, H: 800})
	u.End()
	for i := range l.Ops {
		if l.Ops[i].Kind == draw.KindScene {
			for _, s := range l.Ops[i].Scene.Surfaces {
				if s.Flat {
					t.Fatal("the map stays")
				}
			}
		}
	}
}

// In three dimensions the map is the leaflets' own field, point by point, on the field's own range; every choice has words.
func TestTheMapIsWhatTheSurfacesSay(t *testing.T) {
	v := solved(t)
	surface := func(factor float64) *valve.ShellShapes {
		s := valve.Surface{Columns: 8, Rows: 3}
		for i := range s.Columns * s.Rows {
			x, at := math.Cos(float64(i%8)*math.Pi/4), float64(i)
			s.Points = append(s.Points, r3.Vec{X: 15 * x, Y: float64(i % 8), Z: -at})
			s.GapMM, s.ContactNMM2 = append(s.GapMM, factor*at), append(s.ContactNMM2, factor*at*1e-3)
			s.TensionNMM, s.InContact = append(s.TensionNMM, factor*at*2e-3), append(s.InContact, false)
		}
		return &valve.ShellShapes{Closed: s, Open: s}
	}
	for i := range v.c.Columns {
		v.c.Columns[i].Report.Scene.After.Shell = surface(float64(1 + i))
	}
	v.c.Version++
	w := v.d.W()
	for _, m := range shows[1:] {
		v.d.V.Map = m.name
		v.load()
		if v.shown().name != m.name {
			t.Fatalf("%q is shown instead of %q", v.shown().name, m.name)
		}
		low, high, unit := m.field.Range()
		a := v.field.axis
		if !m.change && (a.Min != low || a.Max != high) || m.change && (a.Min != -a.Max || a.Max < high/2 || a.Max > high) {
			t.Errorf("%s: from %g to %g, the field goes from %g to %g", m.name, a.Min, a.Max, low, high)
		}
		if text := w.T("compare.map." + v.key()); !strings.Contains(text, unit) {
			t.Errorf("%s: no %s in %q", m.name, unit, text)
		}
		base := v.c.Columns[0].Report.Scene.After.Shell
		for i := range v.c.Columns {
			s := v.c.Columns[i].Report.Scene.After.Shell
			for k, got := range v.field.values[i] {
				want := m.field.At(&s.Closed, k)
				if m.change {
					want -= m.field.At(&base.Closed, k)
				}
				if math.Abs(got-want) > 1e-12 || k > 0 && (want == 0) != (m.change && i == 0) {
					t.Fatalf("%s, column %d, point %d: %g, want %g", m.name, i, k, got, want)
				}
			}
			value, at := v.read(i, 0)
			margin := v.field.values[i][16:]
			if value < slices.Min(margin) || value > slices.Max(margin) || math.Abs(at.X) > 15 {
				t.Errorf("%s, column %d: %g at %v is not on the margins", m.name, i, value, at)
			}
		}
	}
}
