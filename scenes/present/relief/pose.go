package relief

import (
	"math"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/theme"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

type clip = valve.Clip

var white = draw.Color{R: 255, G: 255, B: 255, A: 255}

// Pose returns the scene at an opening from 0 (mid-systole) to 1 (mid-diastole). It is valid until the next call.
func (m *Model) Pose(open float64, th theme.Theme, o Options) *draw.Scene {
	p := pose{open, th.Name, o}
	if m.last == p {
		return &m.scene
	}
	m.last = p
	m.scene.Version++
	m.scene.Surfaces, m.scene.Curves = m.scene.Surfaces[:0], m.scene.Curves[:0]
	m.line = m.line[:0]
	if m.Empty() {
		return &m.scene
	}
	m.poseRing(open, th, o)
	shell := m.shellShown(o)
	switch {
	case shell:
		m.poseShell(open, th, o)
	case m.rows > 0:
		m.poseLeaflets(open, th, o)
	}
	for i, d := range m.devices {
		switch m.kinds[i] {
		case deviceClip:
			d.Color = th.Clip
			if shell {
				d.Vertices = m.carried(d.Vertices, open)
			} else {
				d.Vertices = m.follow(d.Vertices, m.rowOf(d.Vertices), open)
			}
		default:
			d.Color = th.Device
			if !o.Vessels && m.inVein() {
				continue
			}
		}
		m.add(d, o)
	}
	if o.Vessels {
		m.artery.Color = th.Artery
		m.add(m.artery, o)
		m.vein.Color, m.vein.Alpha = th.Vein, veinAlpha
		m.add(m.vein, o)
	}
	return &m.scene
}

func (m *Model) inVein() bool { return len(m.Shapes.Anchors) > 0 }

func (m *Model) add(s draw.Surface, o Options) {
	if len(s.Vertices) == 0 {
		return
	}
	if o.Cut {
		var kept [][3]int32
		for _, f := range s.Faces {
			if s.Vertices[f[0]].X <= o.CutX && s.Vertices[f[1]].X <= o.CutX && s.Vertices[f[2]].X <= o.CutX {
				kept = append(kept, f)
			}
		}
		s.Faces = kept
	}
	m.scene.Surfaces = append(m.scene.Surfaces, s)
}

// poseRing makes the annulus a tube round its curve at this opening.
func (m *Model) poseRing(open float64, th theme.Theme, o Options) {
	a, b := m.Shapes.Annulus, m.Shapes.AnnulusDiastole
	n := len(a)
	at := func(i int) r3.Vec {
		i = (i + n) % n
		if len(b) != n {
			return a[i]
		}
		return r3.Add(r3.Scale(1-open, a[i]), r3.Scale(open, b[i]))
	}
	m.ring.Vertices = resizeVec(m.ring.Vertices, n*tubeAround)
	m.ring.Normals = resizeVec(m.ring.Normals, n*tubeAround)
	for i := range n {
		t := r3.Unit(r3.Sub(at(i+1), at(i-1)))
		u := r3.Unit(r3.Sub(r3.Vec{Z: 1}, r3.Scale(t.Z, t)))
		v := r3.Cross(t, u)
		for j := range tubeAround {
			s, c := math.Sincos(2 * math.Pi * float64(j) / tubeAround)
			d := r3.Add(r3.Scale(c, u), r3.Scale(s, v))
			m.ring.Normals[i*tubeAround+j] = d
			m.ring.Vertices[i*tubeAround+j] = r3.Add(at(i), r3.Scale(annulusTube, d))
		}
	}
	if len(m.ring.Faces) != 2*n*tubeAround {
		m.ring.Faces = m.ring.Faces[:0]
		for i := range n {
			for j := range tubeAround {
				p, q := int32(i*tubeAround+j), int32(i*tubeAround+(j+1)%tubeAround)
				r, s := int32((i+1)%n*tubeAround+j), int32((i+1)%n*tubeAround+(j+1)%tubeAround)
				m.ring.Faces = append(m.ring.Faces, [3]int32{p, q, s}, [3]int32{p, s, r})
			}
		}
	}
	m.ring.Color = th.Annulus
	m.add(m.ring, o)
}

func (m *Model) poseLeaflets(open float64, th theme.Theme, o Options) {
	base := [2]draw.Color{theme.Mix(th.Anterior, white, lighter), theme.Mix(th.Posterior, white, lighter)}
	n := m.rows * across
	for side := range 2 {
		s := &m.leaf[side]
		s.Vertices, s.Faces, s.BackTint, s.Flat = resizeVec(s.Vertices, n), m.faces, th.Inside, false
		if side == 0 { // both leaflets show their front to the atrium
			s.Faces = m.faces2
		}
		if cap(s.Colors) < n {
			s.Colors = make([]draw.Color, n)
		}
		s.Colors = s.Colors[:n]
		touching := theme.Mix(base[side], th.Contact, 0.55)
		for i := range n {
			s.Vertices[i] = r3.Add(r3.Scale(1-open, m.closed[side][i]), r3.Scale(open, m.open[side][i]))
			s.Colors[i] = base[side]
			if row := i / across; o.Contact && m.contact[row] > 0 {
				fromMargin := 1 - float64(i%across)/(across-1)
				edge := m.contact[row] + 0.5/(across-1) - fromMargin
				s.Colors[i] = theme.Mix(base[side], touching, (1-open)*math.Min(math.Max(edge*(across-1), 0), 1))
			}
		}
		m.tinted(s, o)
		s.Normals = smooth(s.Normals, s.Vertices, m.rows, [2]float64{-1, 1}[side])
		m.add(*s, o)
	}
	m.poseLines(open, th, o)
}

// smooth gives grid normals from central differences; rows run along the line, columns across.
func smooth(dst, v []r3.Vec, rows int, sign float64) []r3.Vec {
	dst = resizeVec(dst, len(v))
	for i := range rows {
		for j := range across {
			along := r3.Sub(v[min(i+1, rows-1)*across+j], v[max(i-1, 0)*across+j])
			down := r3.Sub(v[i*across+min(j+1, across-1)], v[i*across+max(j-1, 0)])
			nrm := r3.Cross(along, down)
			if l := r3.Norm(nrm); l > 1e-9 {
				dst[i*across+j] = r3.Scale(sign/l, nrm)
			} else {
				dst[i*across+j] = r3.Vec{}
			}
		}
	}
	return dst
}

// poseLines draws the free margins, and when closed the line of contact, broken and in another colour at a gap.
func (m *Model) poseLines(open float64, th theme.Theme, o Options) {
	for side := range 2 {
		from := len(m.line)
		for i := 1; i < m.rows-1; i++ {
			p := m.leaf[side].Vertices[i*across+across-1]
			if o.Cut && p.X > o.CutX {
				break
			}
			m.line = append(m.line, p)
		}
		m.curve(from, th.Ink, 1, false)
	}
	if o.Areas && open == 1 {
		for _, q := range m.Shapes.Orifices {
			m.scene.Curves = append(m.scene.Curves, draw.Curve{Points: q.Outline, Closed: true, Color: th.Contact, Width: 2.5, Over: true})
		}
	}
	if open > 0.02 {
		return
	}
	from, gap := len(m.line), false
	for i := 1; i < m.rows-1; i++ {
		p := m.Shapes.Stations[i-1].Junction
		p.Z += 0.25
		if o.Cut && p.X > o.CutX {
			break
		}
		if m.gap[i] != gap && len(m.line) > from {
			m.line = append(m.line, p)
			m.join(from, th, gap, o.Tint)
			from = len(m.line)
		}
		gap = m.gap[i]
		m.line = append(m.line, p)
	}
	m.join(from, th, gap, o.Tint)
}

// join draws a stretch of the line; on a map it has an edge a little below it, so that it is seen on every colour.
func (m *Model) join(from int, th theme.Theme, gap, edged bool) {
	to := len(m.line)
	if gap {
		m.curve(from, th.Gap, 4, true)
	} else {
		m.curve(from, th.Contact, 2.5, false)
	}
	if edged {
		for _, p := range m.line[from:to] {
			p.Z -= edgeBelow
			m.line = append(m.line, p)
		}
		m.curve(to, th.Card, 5.5, false)
	}
}

func (m *Model) curve(from int, c draw.Color, width float64, dashed bool) {
	pts := m.line[from:len(m.line):len(m.line)]
	if len(pts) < 2 {
		return
	}
	k := draw.Curve{Points: pts, Color: c, Width: width}
	if dashed {
		k.Dash = [2]float64{5, 4}
	}
	m.scene.Curves = append(m.scene.Curves, k)
}

// rowOf is the row of leaflet points nearest to a device, by its place along the line.
func (m *Model) rowOf(v []r3.Vec) int {
	x := 0.0
	for _, p := range v {
		x += p.X / float64(len(v))
	}
	best, at := math.Inf(1), 1
	for i := 1; i < m.rows-1; i++ {
		if d := math.Abs(m.closed[0][i*across+across-1].X - x); d < best {
			best, at = d, i
		}
	}
	return at
}

// follow moves a clip with the margins that it holds.
func (m *Model) follow(v []r3.Vec, row int, open float64) []r3.Vec {
	if open == 0 || m.rows == 0 {
		return v
	}
	d := r3.Scale(open, m.marginShift(row))
	m.moved = m.moved[:0]
	for _, p := range v {
		m.moved = append(m.moved, r3.Add(p, d))
	}
	return m.moved
}

// marginShift is how far the middle between the margins moves from systole to diastole.
func (m *Model) marginShift(row int) r3.Vec {
	j := row*across + across - 1
	open := r3.Scale(0.5, r3.Add(m.open[0][j], m.open[1][j]))
	return r3.Add(r3.Sub(open, m.Shapes.Stations[row-1].Junction), r3.Vec{Z: 1})
}
