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

// fold is the excess of leaflet k's chord (mm) up to which a station has a state without its neighbours: the last that
// was solved, to a quarter of foldStepMM.
func (f *fitter) fold(b *baseStation, k int) float64 {
	p := &f.one
	p.sec[0], p.x[0] = b.sec, b.x
	reached := 0.0
	for step := foldStepMM; step >= foldStepMM/4; {
		good := p.x[0]
		p.sec[0].leaf[k].chord = b.sec.leaf[k].chord + reached + step
		if _, ok := p.newton(10); !ok {
			p.x[0] = good
			step /= 4
			continue
		}
		if reached += step; reached > ExcessMaxMM/foldShare {
			break
		}
	}
	return reached
}
