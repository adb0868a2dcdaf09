package sweep

import "math/rand/v2"

// Points are the values of every row of a manifest. They are read only and may be shared by threads.
type Points struct {
	rows    int
	axes    [][]float64 // grid
	sampled []float64   // sample, row after row
}

// Points returns the values of a validated manifest.
func (m *Manifest) Points() *Points {
	if m.Sample == Grid {
		return m.grid()
	}
	draw := unitLatin
	if m.Sample == Halton {
		draw = unitHalton
	}
	d := len(m.Axes)
	p := &Points{rows: m.Rows, sampled: draw(m.Rows, d, rand.New(rand.NewPCG(m.Seed, 0)))}
	for i, u := range p.sampled {
		r := m.Axes[i%d].Range
		p.sampled[i] = r.From*(1-u) + r.To*u
	}
	return p
}

func (m *Manifest) grid() *Points {
	p := &Points{rows: 1}
	for _, a := range m.Axes {
		v := a.List
		if r := a.Range; r != nil {
			v = make([]float64, r.Count)
			for i := range v {
				t := float64(i) / float64(r.Count-1)
				v[i] = r.From*(1-t) + r.To*t
			}
		}
		p.axes = append(p.axes, v)
		p.rows *= len(v)
	}
	return p
}

// Rows is the number of rows.
func (p *Points) Rows() int { return p.rows }

// At returns the values of a row (from 0), one for each axis. In a grid the last axis runs fastest.
func (p *Points) At(row int) []float64 {
	if p.sampled != nil {
		d := len(p.sampled) / p.rows
		return p.sampled[row*d : (row+1)*d]
	}
	v := make([]float64, len(p.axes))
	for i := len(p.axes) - 1; i >= 0; i-- {
		n := len(p.axes[i])
		v[i] = p.axes[i][row%n]
		row /= n
	}
	return v
}
