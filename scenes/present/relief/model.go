package relief

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/scenes/present/draw"
	"annuloscope/sim/valve"

	"gonum.org/v1/gonum/spatial/r3"
)

// Model holds one state of the valve, ready to be drawn at any opening. The zero value is empty; Load fills it.
type Model struct {
	Shapes valve.Shapes
	Clips  []valve.Clip

	rows                     int
	closed, open             [2][]r3.Vec // rows × across points: anterior, posterior
	contact                  []float64   // share of the row, from the margin, that is in contact, 0 to 1
	gap                      []bool
	leaf                     [2]draw.Surface
	ring, vein, artery       draw.Surface
	devices                  []draw.Surface
	kinds                    []int
	faces                    [][3]int32 // of a whole leaflet
	scene                    draw.Scene
	line                     []r3.Vec // the coaptation line, then the margins
	last                     pose
	low, high                r3.Vec     // corners of the box round all that is drawn
	moved                    []r3.Vec   // a clip's points, open
	centres                  []r3.Vec   // middles of the open orifices
	faces2                   [][3]int32 // of a leaflet whose rows run the other way
	commissureL, commissureR r3.Vec
	tint, points             []draw.Color // one per station, or per point of the shell, or none
}

type pose struct {
	open  float64
	theme string
	o     Options
}

// Options choose what is drawn.
type Options struct {
	Shell   bool    // draw the leaflets in three dimensions where they are solved
	Field   Field   // what colours them then
	Vessels bool    // vein and artery
	Contact bool    // colour the touching stretch of the leaflets
	Cut     bool    // leave out what lies beyond CutX, towards +x
	CutX    float64 // mm
	Areas   bool    // outline the open orifices
	Jet     bool    // mark where the leak is widest
	Tint    bool    // colour the leaflets as Model.Tint was told
	Quiet   bool    // labels without numbers
	Few     bool    // no names on the leaflets: the picture is small
}

// Load takes a state over.
func (m *Model) Load(sh valve.Shapes, clips []valve.Clip) {
	m.Shapes, m.Clips = sh, clips
	m.last = pose{open: math.NaN()}
	m.tint, m.points = m.tint[:0], m.points[:0]
	m.scene.Version++
	if len(sh.Annulus) < 3 {
		m.rows = 0
		return
	}
	m.loadLeaflets()
	m.loadVessels()
	m.loadDevices()
	m.low, m.high = sh.Annulus[0], sh.Annulus[0]
	for _, line := range [][]r3.Vec{sh.Annulus, sh.Vein, sh.Artery} {
		for _, p := range line {
			m.low = r3.Vec{X: math.Min(m.low.X, p.X), Y: math.Min(m.low.Y, p.Y), Z: math.Min(m.low.Z, p.Z)}
			m.high = r3.Vec{X: math.Max(m.high.X, p.X), Y: math.Max(m.high.Y, p.Y), Z: math.Max(m.high.Z, p.Z)}
		}
	}
	m.low.Z = math.Min(m.low.Z, -14)
	m.centres = m.centres[:0]
	for _, q := range sh.Orifices {
		m.centres = append(m.centres, Centroid(q.Outline))
	}
}

// Centroid is the middle of an area seen from the atrium.
func Centroid(out []r3.Vec) r3.Vec {
	var a float64
	var c r3.Vec
	for i := range out {
		p, q := out[i], out[(i+1)%len(out)]
		k := p.X*q.Y - q.X*p.Y
		a += k
		c = r3.Add(c, r3.Scale(k, r3.Add(p, q)))
	}
	if math.Abs(a) < 1e-9 {
		return out[0]
	}
	c = r3.Scale(1/(3*a), c)
	c.Z = out[0].Z
	return c
}

// Empty tells whether there is nothing to draw.
func (m *Model) Empty() bool { return len(m.Shapes.Annulus) < 3 }

func (m *Model) loadLeaflets() {
	sh := &m.Shapes
	n := len(sh.Annulus)
	m.commissureR, m.commissureL = sh.Annulus[0], sh.Annulus[0]
	for _, p := range sh.Annulus {
		if p.X > m.commissureR.X {
			m.commissureR = p
		}
		if p.X < m.commissureL.X {
			m.commissureL = p
		}
	}
	k := len(sh.Stations)
	m.rows = k + 2
	m.contact, m.gap = resize(m.contact, m.rows), make([]bool, m.rows)
	for side := range 2 {
		m.closed[side] = resizeVec(m.closed[side], m.rows*across)
		m.open[side] = resizeVec(m.open[side], m.rows*across)
	}
	if k == 0 {
		m.rows = 0
		return
	}
	shift := func(p r3.Vec) r3.Vec { // the annulus point nearest to p, moved to diastole
		best, at := math.Inf(1), 0
		for i, q := range sh.Annulus {
			if d := r3.Norm2(r3.Sub(q, p)); d < best {
				best, at = d, i
			}
		}
		if len(sh.AnnulusDiastole) != n {
			return p
		}
		return r3.Add(p, r3.Sub(sh.AnnulusDiastole[at], sh.Annulus[at]))
	}
	for i := range m.rows {
		st := sh.Stations[min(max(i-1, 0), k-1)]
		m.gap[i] = st.GapMM > gapShown
		for side, curve := range [2][]r3.Vec{st.Anterior, st.Posterior} {
			row := m.closed[side][i*across : (i+1)*across]
			openRow := m.open[side][i*across : (i+1)*across]
			switch i {
			case 0, m.rows - 1:
				c := m.commissureL
				if i > 0 {
					c = m.commissureR
				}
				for j := range row {
					row[j], openRow[j] = c, shift(c)
				}
				m.contact[i] = 0
				continue
			}
			geometry.Resample(row, curve, false)
			if l := geometry.Length(curve); side == 0 && l > 0 {
				m.contact[i] = math.Min(st.ContactMM/l, 1)
			}
			margin := openMargin(sh, st, side)
			from := shift(row[0])
			mid := r3.Vec{X: from.X, Y: from.Y + 0.2*(margin.Y-from.Y), Z: from.Z + openCurve*(margin.Z-from.Z)}
			for j := range openRow {
				t := float64(j) / (across - 1)
				openRow[j] = r3.Add(r3.Scale((1-t)*(1-t), from), r3.Add(r3.Scale(2*t*(1-t), mid), r3.Scale(t*t, margin)))
			}
		}
	}
	m.faces, m.faces2 = m.faces[:0], m.faces2[:0]
	for i := range m.rows - 1 {
		for j := range across - 1 {
			a, b := int32(i*across+j), int32((i+1)*across+j)
			m.faces = append(m.faces, [3]int32{a, b, b + 1}, [3]int32{a, b + 1, a + 1})
			m.faces2 = append(m.faces2, [3]int32{a, b + 1, b}, [3]int32{a, a + 1, b + 1})
		}
	}
}

// openMargin is where the margin of one leaflet (0 anterior, 1 posterior) hangs at a station in diastole: on the outline
// of the orifice there, or where the edges lie together beside and between the orifices.
func openMargin(sh *valve.Shapes, st valve.Station, side int) r3.Vec {
	x := st.Junction.X
	var left, right *r3.Vec // ends of the orifices beside x
	for o := range sh.Orifices {
		out := sh.Orifices[o].Outline
		hi, lo, ok := crossings(out, x)
		if ok {
			if side == 0 {
				return hi
			}
			return lo
		}
		for i := range out {
			p := &out[i]
			if p.X <= x && (left == nil || p.X > left.X) {
				left = p
			}
			if p.X >= x && (right == nil || p.X < right.X) {
				right = p
			}
		}
	}
	closed := st.Anterior[len(st.Anterior)-1]
	first, last := sh.Stations[0], sh.Stations[len(sh.Stations)-1]
	switch {
	case left == nil && right == nil:
		return closed
	case left == nil:
		e := first.Anterior[len(first.Anterior)-1]
		return between(e, *right, x)
	case right == nil:
		e := last.Anterior[len(last.Anterior)-1]
		return between(*left, e, x)
	}
	return between(*left, *right, x)
}

func between(a, b r3.Vec, x float64) r3.Vec {
	t := 0.5
	if d := b.X - a.X; math.Abs(d) > 1e-9 {
		t = math.Min(math.Max((x-a.X)/d, 0), 1)
	}
	p := r3.Add(r3.Scale(1-t, a), r3.Scale(t, b))
	p.X = x
	return p
}

// crossings returns the two places, highest and lowest y, where a closed outline crosses x.
func crossings(out []r3.Vec, x float64) (hi, lo r3.Vec, ok bool) {
	hi.Y, lo.Y = math.Inf(-1), math.Inf(1)
	for i := range out {
		a, b := out[i], out[(i+1)%len(out)]
		if (a.X-x)*(b.X-x) > 0 || a.X == b.X {
			continue
		}
		p := between(a, b, x)
		if p.Y > hi.Y {
			hi = p
		}
		if p.Y < lo.Y {
			lo = p
		}
		ok = true
	}
	return hi, lo, ok
}

func resize(v []float64, n int) []float64 {
	if cap(v) < n {
		return make([]float64, n)
	}
	return v[:n]
}

func resizeVec(v []r3.Vec, n int) []r3.Vec {
	if cap(v) < n {
		return make([]r3.Vec, n)
	}
	return v[:n]
}
