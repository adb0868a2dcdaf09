package closure

import "math"

// findRoom sets how much chord excess a change may add at each station before the flail leaflet runs away: foldShare of
// the excess at which the section by itself has no closed state, at most ExcessMaxMM, linear between foldNodes stations.
func (out *Fitted) findRoom(f *fitter) {
	n := len(out.base)
	nodes := min(foldNodes, n)
	for k := 0; k < 2; k++ {
		last, room := 0, 0.0
		for j := 0; j < nodes; j++ {
			at := (j*(n-1) + (nodes-1)/2) / (nodes - 1)
			next := foldShare * f.fold(&out.base[at], k)
			for i := last; i <= at; i++ {
				t := 1.0
				if at > last {
					t = float64(i-last) / float64(at-last)
				}
				out.base[i].room[k] = math.Min(room+t*(next-room), ExcessMaxMM)
			}
			last, room = at, next
		}
	}
}

// fold is the excess of leaflet k's chord (mm) up to which a station has a state without its neighbours.
func (f *fitter) fold(b *baseStation, k int) float64 {
	const most = ExcessMaxMM / foldShare
	p := &f.one
	p.sec[0], p.x[0] = b.sec, b.x
	if math.IsInf(p.evaluate(p.x, p.out), 1) {
		return 0
	}
	f.path.p = p
	f.path.resize(1)
	for j := range b.sec.leaf {
		f.path.start[0][j] = b.sec.leaf[j].chord
	}
	f.path.goal[0] = f.path.start[0]
	f.path.goal[0][k] += most
	return most * f.path.walk()
}
