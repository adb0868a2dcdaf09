package ring

import (
	"cmp"
	"math"
	"slices"
)

// node is one point in the elimination order.
type node struct {
	id  int     // annulus i, or N + vein j
	key float64 // place along the folded ring
}

// order places the points so that neighbours round the ring, and a vein point and its partner, lie close together:
// annulus 0, N−1, 1, N−2, … with each vein point after its partner. It writes first[id] = row of the x component.
func (s *Solver) order(in *Input) {
	n, m := len(in.Annulus.Rest), len(in.Vein.Rest)
	s.nodes = grow(s.nodes, n+m)
	for i := range n {
		s.nodes[i] = node{i, foldKey(i, n)}
	}
	for j, p := range in.Vein.Partner {
		s.nodes[n+j] = node{n + j, foldKey(int(math.Floor(p)), n) + 0.5}
	}
	slices.SortFunc(s.nodes, func(a, b node) int {
		if c := cmp.Compare(a.key, b.key); c != 0 {
			return c
		}
		return cmp.Compare(a.id, b.id)
	})
	s.first = grow(s.first, n+m)
	for k, v := range s.nodes {
		s.first[v.id] = 3 * k
	}
}

// foldKey is the place of annulus point i in the folded order: 0, N−1, 1, N−2, …
func foldKey(i, n int) float64 {
	if 2*i < n {
		return float64(2 * i)
	}
	return float64(2*(n-i) - 1)
}

// halfWidth is the half-bandwidth of the stiffness matrix under that order.
func (s *Solver) halfWidth(in *Input) int {
	n, m := len(in.Annulus.Rest), len(in.Vein.Rest)
	w := 0
	see := func(a, b int) {
		d := s.first[a] - s.first[b]
		w = max(w, d, -d)
	}
	for i := range n {
		see(i, (i+1)%n)
		see(i, (i+2)%n)
	}
	for j := range m {
		if j+1 < m {
			see(n+j, n+j+1)
		}
		if j+2 < m {
			see(n+j, n+j+2)
		}
		a, b, _ := partner(in.Vein.Partner[j], n)
		see(n+j, a)
		see(n+j, b)
	}
	return w + 2
}

// partner splits a fractional annulus index into two points and the weight of the second.
func partner(p float64, n int) (a, b int, t float64) {
	f := math.Floor(p)
	a = int(f) % n
	return a, (a + 1) % n, p - f
}
