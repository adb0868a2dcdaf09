package relief

import (
	"math"

	"annuloscope/scenes/present/draw"
)

// Tint gives each station of the closed leaflets a colour of its own, for a map of a value along the line; Options.Tint
// shows it. The leaflets are then not shaded, so that a colour is the colour of the legend. Load takes the colours away.
func (m *Model) Tint(colour func(station int) draw.Color) {
	m.tint = m.tint[:0]
	for i := range m.Shapes.Stations {
		m.tint = append(m.tint, colour(i))
	}
	m.last = pose{open: math.NaN()} // what was posed before is out of date
}

// TintPoints is Tint for the leaflets in three dimensions: a colour for each point of the closed surface.
func (m *Model) TintPoints(colour func(point int) draw.Color) {
	m.points = m.points[:0]
	for i := range m.Shapes.Shell.Closed.Points {
		m.points = append(m.points, colour(i))
	}
	m.last = pose{open: math.NaN()}
}

// tinted colours one leaflet by its rows and tells whether it did.
func (m *Model) tinted(s *draw.Surface, o Options) bool {
	if !o.Tint || len(m.tint) != m.rows-2 {
		return false
	}
	for i := range s.Colors {
		s.Colors[i] = m.tint[min(max(i/across-1, 0), len(m.tint)-1)]
	}
	s.Flat, s.BackTint = true, draw.Color{}
	return true
}
