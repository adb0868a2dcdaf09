package relief

import (
	"math"

	"annuloscope/geometry"
	"annuloscope/scenes/present/draw"

	"gonum.org/v1/gonum/spatial/r3"
)

func surfaceOf(m *geometry.Mesh) draw.Surface {
	return draw.Surface{Vertices: m.Vertices, Faces: m.Faces, Normals: m.Normals(nil)}
}

func (m *Model) loadVessels() {
	sh := &m.Shapes
	m.vein, m.artery = draw.Surface{}, draw.Surface{}
	if len(sh.Vein) > 1 {
		m.vein = surfaceOf(geometry.Tube{Centre: sh.Vein, Radius: sh.VeinRadius}.Mesh(tubeAround, false))
	}
	if len(sh.Artery) > 1 {
		along, across := make([]float64, len(sh.Artery)), make([]float64, len(sh.Artery))
		for i, r := range sh.ArteryRadius {
			n := 0.0
			if i < len(sh.ArteryNarrow) {
				n = math.Min(math.Max(sh.ArteryNarrow[i]/100, 0), 0.95)
			}
			along[i], across[i] = r*(1-n), r*(1+0.5*n) // flattened; the round perimeter stretches sideways
		}
		m.artery = surfaceOf(geometry.Tube{Centre: sh.Artery, Radius: along, Second: across}.Mesh(tubeAround, true))
	}
}

// kind of a device surface, which decides its colour.
const (
	deviceBand = iota
	deviceAnchor
	deviceClip
)

func (m *Model) loadDevices() {
	sh := &m.Shapes
	m.devices = m.devices[:0]
	m.kinds = m.kinds[:0]
	if len(sh.Band) > 1 {
		m.device(deviceBand, surfaceOf(geometry.RoundTube(sh.Band, bandRadius).Mesh(8, true)))
	}
	for _, a := range sh.Anchors {
		m.device(deviceAnchor, ball(a, anchorRadius))
	}
	for _, c := range m.Clips {
		if c.Held <= 0 {
			continue
		}
		at := m.ClipPlace(c)
		half := r3.Vec{X: math.Max(c.WidthMM/2, 0.5)}
		line := []r3.Vec{r3.Sub(at, half), at, r3.Add(at, half)}
		m.device(deviceClip, surfaceOf(geometry.RoundTube(line, clipRadius).Mesh(10, true)))
	}
}

func (m *Model) device(kind int, s draw.Surface) {
	m.devices, m.kinds = append(m.devices, s), append(m.kinds, kind)
}

// ClipPlace is where a clip sits: the junction of the leaflets at its position, a little towards the atrium.
func (m *Model) ClipPlace(c clip) r3.Vec {
	p := m.JunctionAt(c.Position)
	p.Z += clipRadius / 2
	return p
}

// JunctionAt is the place on the coaptation line at s.
func (m *Model) JunctionAt(s float64) r3.Vec {
	st := m.Shapes.Stations
	if len(st) == 0 {
		return r3.Vec{}
	}
	for i := 1; i < len(st); i++ {
		if s <= st[i].S || i == len(st)-1 {
			t := (s - st[i-1].S) / (st[i].S - st[i-1].S)
			t = math.Min(math.Max(t, 0), 1)
			return r3.Add(r3.Scale(1-t, st[i-1].Junction), r3.Scale(t, st[i].Junction))
		}
	}
	return st[0].Junction
}

// ball is a sphere.
func ball(c r3.Vec, radius float64) draw.Surface {
	const rings, around = 7, 10
	var s draw.Surface
	for i := 0; i <= rings; i++ {
		sp, cp := math.Sincos(math.Pi * float64(i) / rings)
		for j := range around {
			sa, ca := math.Sincos(2 * math.Pi * float64(j) / around)
			n := r3.Vec{X: sp * ca, Y: sp * sa, Z: cp}
			s.Normals = append(s.Normals, n)
			s.Vertices = append(s.Vertices, r3.Add(c, r3.Scale(radius, n)))
		}
	}
	for i := range rings {
		for j := range around {
			a, b := int32(i*around+j), int32(i*around+(j+1)%around)
			s.Faces = append(s.Faces, [3]int32{a, a + around, b + around}, [3]int32{a, b + around, b})
		}
	}
	return s
}
