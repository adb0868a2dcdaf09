package leaflet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// newValve builds the leaflets of an input as a sheet at their rest shape: tissue, chords, bonds, patches. The first
// row is the annulus and is fixed; thickness and exclusion (mm) are those of the contact. Positions are set by the caller.
func newValve(in *Input, h *shape, thickness, exclusion float64) *sheet {
	tris := h.triangles()
	stiff := make([]float64, len(tris))
	bend := make([]float64, len(h.rest))
	for v := range bend {
		bend[v] = in.patchAt(h, float64(v%h.s), float64(v/h.s)/float64(h.t-1))
	}
	for t, v := range tris {
		stiff[t] = in.MembraneScale * (bend[v[0]] + bend[v[1]] + bend[v[2]]) / 3
	}
	stiffness, fold := bendClosed, foldFactor
	if in.Phase == Diastole {
		stiffness, fold = bendOpen, foldOpen
	}
	for v := range bend {
		f := (math.Abs(h.line[v%h.s]) - foldFrom) / (foldFull - foldFrom)
		bend[v] *= 1 + (fold-1)*min(max(f, 0), 1)
	}
	for v, share := range bonded(in, h) {
		bend[v] *= 1 + share*(bendBond/stiffness-1)
	}
	circumferential := func(t int) r3.Vec {
		// The edge of the triangle that lies in one row.
		v := tris[t]
		for k := range 3 {
			if a, b := int(v[k]), int(v[(k+1)%3]); a/h.s == b/h.s {
				return r3.Sub(h.rest[b], h.rest[a])
			}
		}
		panic("leaflet: triangle without a row edge")
	}
	s := newSheet(h.rest, h.s, tris, circumferential, tissue, stiffness, stiff, bend)
	s.chords = newChords(in, h)
	s.springs = newBonds(in, h)
	s.contact.thickness = thickness
	s.contact.stiffness = contactStiffness
	s.contact.exclusion = exclusion
	s.finish()
	s.contact.forbid(s)
	return s
}

// setLoads puts the present tips and pressure into the sheet.
func (s *sheet) setLoads(in *Input) {
	s.pressure = in.PressureNMM2
	if in.Phase == Diastole {
		s.pressure = -s.pressure
	}
	for i := range s.chords {
		s.chords[i].tip = in.Tips[s.chords[i].muscle]
	}
}

// onSide reports whether fractional column u lies on the leaflet, and its distance along the rest margin from station pos.
func (h *shape) onSide(side Side, u, pos float64) (bool, float64) {
	anterior := u <= float64(h.s)/2
	if (side == Anterior) != anterior {
		return false, 0
	}
	return true, math.Abs(h.marginAt(u) - h.marginAt(h.columnAt(side, pos)))
}

// patchAt is the stiffness factor at a material point.
func (in *Input) patchAt(h *shape, u, v float64) float64 {
	f := 1.0
	for _, p := range in.Patches {
		if on, d := h.onSide(p.Leaflet, u, p.S); on && d <= p.WidthMM/2 && v >= p.FromV && v <= p.ToV {
			f *= p.Factor
		}
	}
	return f
}

// newChords makes the marginal chords, evenly spaced along the rest margin, and the basal ones, three strands each.
func newChords(in *Input, h *shape) []chord {
	var out []chord
	total := h.margin[h.s]
	attach := func(u, v, slack, k float64, basal bool) {
		c := chord{k: k}
		c.v, c.w = h.corners(u, v)
		pos, aim := h.lineAt(u), h.targetAt(u)
		side, group := Anterior, GroupA1
		if u > float64(h.s)/2 {
			side, group = Posterior, GroupP1
		}
		if pos > 1./3 {
			group += 2
		} else if pos >= -1./3 {
			group++
		}
		if basal {
			aim = r3.Add(r3.Scale(1-v, loopAt(in.RestAnnulus, h.indexAt(u))), r3.Scale(v, aim))
			group = GroupBasal
		}
		c.group = group
		if pos > 0 {
			c.muscle = Posteromedial
		}
		c.length = r3.Norm(r3.Sub(in.RestTips[c.muscle], aim)) + slack
		for _, ch := range in.Chords {
			if on, d := h.onSide(ch.Leaflet, u, ch.S); ch.Leaflet == side && on && d <= ch.WidthMM/2 && (!basal || ch.WithBasal) {
				if ch.Ruptured {
					c.k = 0
				} else {
					c.length += ch.LengthMM
				}
			}
		}
		c.length = math.Max(c.length, 1)
		out = append(out, c)
	}
	for k := range marginalChords {
		attach(h.columnAtMargin((float64(k)+0.5)/marginalChords*total), 1, in.ChordSlackMM, in.ChordNPerMM, false)
	}
	for _, side := range []Side{Anterior, Posterior} {
		for _, pos := range []float64{-0.7, -0.35, 0.35, 0.7} {
			u := h.columnAt(side, pos)
			for strand := -1.; strand <= 1; strand++ {
				attach(u+strand*basalSpread*float64(h.s)/4, basalRow, in.BasalSlackMM, in.ChordNPerMM/3, true)
			}
		}
	}
	return out
}

// lineAt, targetAt and indexAt interpolate per-column values at fractional column u.
func (h *shape) lineAt(u float64) float64 {
	j, k, f := h.between(u)
	return (1-f)*h.line[j] + f*h.line[k]
}

func (h *shape) targetAt(u float64) r3.Vec {
	j, k, f := h.between(u)
	return r3.Add(r3.Scale(1-f, h.target[j]), r3.Scale(f, h.target[k]))
}

func (h *shape) lengthAt(u float64) float64 {
	j, k, f := h.between(u)
	return (1-f)*h.length[j] + f*h.length[k]
}

func (h *shape) indexAt(u float64) float64 {
	j, _, f := h.between(u)
	if j == h.s-1 {
		return h.index[j] + f // within the last polyline segments; the loop closes at column s
	}
	return (1-f)*h.index[j] + f*h.index[j+1]
}

func (h *shape) between(u float64) (j, k int, f float64) {
	u = math.Mod(u+float64(h.s), float64(h.s))
	j = min(int(u), h.s-1)
	return j, (j + 1) % h.s, u - float64(j)
}

// newBonds lays the springs of every bond that holds.
func newBonds(in *Input, h *shape) []spring {
	var out []spring
	for i, b := range in.Bonds {
		if b.Hold == 0 {
			continue
		}
		ua, up := h.columnAt(Anterior, b.S), h.columnAt(Posterior, b.S)
		ma, mp := h.marginAt(ua), h.marginAt(up)
		across := max(int(math.Round(b.WidthMM/bondGrid)), 1)
		deep := max(int(math.Round(b.ReachMM/bondGrid)), 1)
		k := bondStiffness * b.Hold * b.WidthMM * b.ReachMM / float64((across+1)*(deep+1))
		for a := range across + 1 {
			off := b.WidthMM * (float64(a)/float64(across) - 0.5)
			ca, cp := h.columnAtMarginWrap(ma+off), h.columnAtMarginWrap(mp-off)
			for d := range deep + 1 {
				depth := b.ReachMM * float64(d) / float64(deep)
				p := spring{k: k, gap: bondGap, bond: i}
				v1, w1 := h.corners(ca, 1-depth/h.lengthAt(ca))
				v2, w2 := h.corners(cp, 1-depth/h.lengthAt(cp))
				for c := range 4 {
					p.v[c], p.w[c] = v1[c], w1[c]
					p.v[4+c], p.w[4+c] = v2[c], -w2[c]
				}
				out = append(out, p)
			}
		}
	}
	return out
}

func (h *shape) columnAtMarginWrap(arc float64) float64 {
	total := h.margin[h.s]
	arc = math.Mod(arc+total, total)
	return h.columnAtMargin(arc)
}

// bonded is, per vertex, how much of its cell lies inside a bond that holds, 0 to 1: bending is raised there, by the area of
// the bond and not by how many vertices happen to lie in it. nil without bonds.
func bonded(in *Input, h *shape) []float64 {
	var share []float64
	for _, b := range in.Bonds {
		if b.Hold == 0 {
			continue
		}
		if share == nil {
			share = make([]float64, len(h.rest))
		}
		for v := range share {
			j, row := v%h.s, v/h.s
			pitch := h.length[j] / float64(h.t-1)
			deep := overlap(pitch*float64(h.t-1-row), pitch, 0, b.ReachMM)
			if row == h.t-1 { // half a cell
				deep = overlap(pitch/4, pitch/2, 0, b.ReachMM)
			}
			before := (j + h.s - 1) % h.s
			across := (h.margin[j+1] - h.margin[j] + h.margin[before+1] - h.margin[before]) / 2
			for _, side := range []Side{Anterior, Posterior} {
				if on, d := h.onSide(side, float64(j), b.S); on {
					share[v] = max(share[v], deep*overlap(d, across, -b.WidthMM/2, b.WidthMM/2))
				}
			}
		}
	}
	return share
}

// overlap is the part of a stretch of length l about mid that lies between low and high.
func overlap(mid, l, low, high float64) float64 {
	return max(0, min(mid+l/2, high)-max(mid-l/2, low)) / l
}
