package meshio

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"annuloscope/geometry"
	"gonum.org/v1/gonum/spatial/r3"
)

// WriteSTL writes a mesh as binary STL: 84 + 50 bytes per face, little-endian, coordinates in mm. The header is the title
// (shortened to fit, non-ASCII letters replaced) followed by "mm educational only"; it never begins with "solid", which
// would make readers take the file for text.
func WriteSTL(w io.Writer, m *geometry.Mesh, title string) error {
	if err := m.Check(); err != nil {
		return err
	}
	for i, v := range m.Vertices {
		if math.Abs(v.X) > math.MaxFloat32 || math.Abs(v.Y) > math.MaxFloat32 || math.Abs(v.Z) > math.MaxFloat32 {
			return fmt.Errorf("meshio: vertex %d = %v does not fit the 32-bit numbers of STL", i, v)
		}
	}
	b := bufio.NewWriter(w)
	head := stlHeader(title)
	b.Write(head[:])
	binary.Write(b, binary.LittleEndian, uint32(len(m.Faces)))
	var rec [50]byte
	put := func(at int, v r3.Vec) {
		for k, c := range [3]float64{v.X, v.Y, v.Z} {
			binary.LittleEndian.PutUint32(rec[at+4*k:], math.Float32bits(float32(c)))
		}
	}
	for i, f := range m.Faces {
		n := m.FaceVector(i)
		if l := r3.Norm(n); l > 0 {
			n = r3.Scale(1/l, n)
		}
		put(0, n)
		for k, v := range f {
			put(12+12*k, m.Vertices[v])
		}
		b.Write(rec[:])
	}
	return b.Flush() // reports the first failed write
}

func stlHeader(title string) [80]byte {
	text := make([]byte, 0, 80)
	for _, r := range oneLine(title) {
		if r < 32 || r > 126 {
			r = '?'
		}
		text = append(text, byte(r))
	}
	const lead, sep = "Mesh: ", "; "
	if room := 80 - len(lead) - len(sep) - len(Notice); len(text) > room {
		text = text[:room]
	}
	full := lead + string(text) + sep + Notice
	var head [80]byte
	for i := range head {
		head[i] = ' '
	}
	copy(head[:], full)
	return head
}
