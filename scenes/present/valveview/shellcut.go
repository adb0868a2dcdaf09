package valveview

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// shellCut draws where the closed leaflets in three dimensions pass the plane of the cut, dotted over the sections.
func (v *View) shellCut(f frame, sh *valve.Shapes, x float64, lab *placer) {
	if v.d.V.Engine != valve.ShellEngine || sh.Shell == nil || sh.Shell.Closed.Empty() {
		return
	}
	u, s := v.d.U, &sh.Shell.Closed
	var margin draw.Point
	for side := range 2 {
		line := alongCut(s, x, side*s.Columns/2, (side+1)*s.Columns/2)
		if len(line) < 2 {
			return
		}
		pts := project(f, line)
		u.List.Dashed(u.T.Ink, u.S(2), u.S(1.5), u.S(3.5), pts...)
		margin = pts[len(pts)-1]
	}
	text := v.d.W().T("cut.shell")
	if lab.beside(margin, -0.3, 1, text, u.T.Ink) {
		return
	}
	lh := u.LineHeight(theme.Small) // where that is crowded, under the word in a corner
	for _, y := range [...]float64{f.r.Y + u.S(6) + lh, f.r.Y + f.r.H - u.S(6) - 2*lh} {
		if lab.fixed(f.r.X+u.S(6), y, text, draw.Start, u.T.Ink) {
			return
		}
	}
}

// alongCut is one leaflet of a surface, columns first to last, at x: a point in every row that reaches x, annulus first.
func alongCut(s *valve.Surface, x float64, first, last int) []r3.Vec {
	var out []r3.Vec
	for i := range s.Rows {
		row := s.Points[i*s.Columns : (i+1)*s.Columns]
		for j := first; j < last; j++ {
			a, b := row[j], row[(j+1)%s.Columns]
			if (a.X-x)*(b.X-x) <= 0 && math.Abs(a.X-b.X) > 1e-9 {
				out = append(out, lerp(a, b, (x-a.X)/(b.X-a.X)))
				break
			}
		}
	}
	return out
}
