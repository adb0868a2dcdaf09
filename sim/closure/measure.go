package closure

import (
	"math"

	"annuloscope/sim/units"
)

// resize gives the result room for n stations.
func (r *Result) resize(n int) {
	if cap(r.S) < n {
		buf := make([]float64, 4*n)
		r.S, r.OverlapMM, r.ContactMM, r.GapMM = buf[:n:n], buf[n:2*n:2*n], buf[2*n:3*n:3*n], buf[3*n:]
		for k := range r.Tethered {
			r.Tethered[k], r.PullChange[k], r.ClipPull[k] = make([]bool, n), make([]Point, n), make([]Point, n)
		}
		r.Clips = make([]ClipReport, 0, MaxClips)
	}
	r.S, r.OverlapMM, r.ContactMM, r.GapMM = r.S[:n], r.OverlapMM[:n], r.ContactMM[:n], r.GapMM[:n]
	for k := range r.Tethered {
		r.Tethered[k], r.PullChange[k], r.ClipPull[k] = r.Tethered[k][:n], r.PullChange[k][:n], r.ClipPull[k][:n]
	}
}

// tangentAtAnnulus is the direction in which leaflet k leaves the annulus.
func tangentAtAnnulus(s *section, o *sectionOut, k int) Point {
	wx, wz := (o.j[k].X-s.leaf[k].a.X)/o.leaf[k].d, (o.j[k].Z-s.leaf[k].a.Z)/o.leaf[k].d
	sin, cos := math.Sincos(side[k] * o.leaf[k].t)
	return Point{wx*cos - wz*sin, wx*sin + wz*cos}
}

// pull of leaflet k on the annulus, N/mm.
func pull(s *section, o *sectionOut, k int) Point {
	d := tangentAtAnnulus(s, o, k)
	return Point{o.leaf[k].tens * d.X, o.leaf[k].tens * d.Z}
}

// keepPulls stores the pulls of the state just solved.
func (w *Workspace) keepPulls() {
	for i := range w.p.out {
		for k := range w.pulls {
			w.pulls[k][i] = pull(&w.p.sec[i], &w.p.out[i], k)
		}
	}
}

// measure fills out from the solved state.
func (w *Workspace) measure(f *Fitted, in *Input, out *Result) {
	p := &w.p
	n := len(p.sec)
	ds := p.spacing
	var area, moment, second float64
	out.TentingVolumeML, out.BillowingVolumeML, out.BillowingHeightMM = 0, 0, 0
	out.FullyTethered = false
	out.Annulus, out.AnnulusClip = AnnulusForce{}, AnnulusForce{}
	var arm, armClip [2]float64
	for i := range p.sec {
		s, o := &p.sec[i], &p.out[i]
		x, wt := in.Line.Stations[i].S, weight(i, n)
		out.S[i], out.OverlapMM[i] = x, p.x[i][2]
		e := meanGap(p.x[i][2], f.Report.UnevennessMM*w.left[i])
		out.ContactMM[i] = math.Max(e+p.x[i][2], 0)
		out.GapMM[i] = e * w.open[i]
		area += wt * out.GapMM[i]
		moment += wt * out.GapMM[i] * x
		second += wt * out.GapMM[i] * x * x
		below, above, height := tent(s, o)
		if i == n/2 {
			out.TentingAreaCM2 = units.AreaToCM2(below)
			out.DepthMM = depth([2]Point{s.leaf[0].a, s.leaf[1].a}, p.x[i])
		}
		out.TentingVolumeML += units.VolumeToML(wt * ds * below)
		out.BillowingVolumeML += units.VolumeToML(wt * ds * above)
		out.BillowingHeightMM = math.Max(out.BillowingHeightMM, height)
		for k := range out.Tethered {
			out.Tethered[k][i] = o.leaf[k].t < tetherAngle
			out.FullyTethered = out.FullyTethered || out.Tethered[k][i]
			now := pull(s, o, k)
			base, bare := f.base[i].pull[k], w.pulls[k][i]
			d := Point{now.X - base.X, now.Z - base.Z}
			out.PullChange[k][i] = d
			out.Annulus.add(k, d, wt*ds, x, &arm)
			e := Point{now.X - bare.X, now.Z - bare.Z}
			out.ClipPull[k][i] = e
			out.AnnulusClip.add(k, e, wt*ds, x, &armClip)
		}
	}
	out.Annulus.finish(&arm)
	out.AnnulusClip.finish(&armClip)
	out.AnatomicOrifice = units.AnatomicCM2(units.AreaToCM2(area * ds))
	out.EffectiveOrifice = out.AnatomicOrifice.Effective(Contraction)
	out.OrificeLow, out.OrificeHigh = out.EffectiveOrifice, out.EffectiveOrifice
	out.JetPosition, out.JetSpreadMM = 0, 0
	if area > 0 {
		out.JetPosition = moment / area
		out.JetSpreadMM = in.Line.LengthMM() / 2 * math.Sqrt(math.Max(second/area-out.JetPosition*out.JetPosition, 0))
	}
	out.Contact = regional(out.S, out.ContactMM)
	out.Gap = regional(out.S, out.GapMM)
	for c := range out.Clips {
		var force float64
		for i := range p.sec {
			var one [MaxClips]float64
			one[c] = p.sec[i].amp[c]
			v, _ := clipForce(&one, &p.widths, p.out[i].g)
			force += weight(i, n) * ds * v
		}
		out.Clips[c].ForceN = force
	}
	w.flail(in, out)
}

// add one station's change d (N/mm) over the length ds to the total; sums of X² for the position collect in Position
// and arm.
func (a *AnnulusForce) add(k int, d Point, ds, s float64, arm *[2]float64) {
	a.Total[k].X += ds * d.X
	a.Total[k].Z += ds * d.Z
	a.Position[k] += ds * d.X * d.X * s
	arm[k] += ds * d.X * d.X
}

func (a *AnnulusForce) finish(arm *[2]float64) {
	for k := range arm {
		if arm[k] > 0 {
			a.Position[k] /= arm[k]
		}
	}
}

// regional takes extremes and means over the thirds of the line, a station on a border counting half to each side.
func regional(s, v []float64) Regional {
	r := Regional{Min: math.Inf(1), Max: math.Inf(-1)}
	var sum [3]float64
	var total float64
	n := len(s)
	for i, x := range s {
		r.Min, r.Max = math.Min(r.Min, v[i]), math.Max(r.Max, v[i])
		wt := weight(i, n)
		r.Mean += wt * v[i]
		total += wt
		third, share := 1, 1.0
		switch {
		case math.Abs(math.Abs(x)-1.0/3) < 1e-9:
			share = 0.5
			if x > 0 {
				r.A3P3 += wt / 2 * v[i]
				sum[2] += wt / 2
			} else {
				r.A1P1 += wt / 2 * v[i]
				sum[0] += wt / 2
			}
		case x < -1.0/3:
			third = 0
		case x > 1.0/3:
			third = 2
		}
		sum[third] += share * wt
		*[3]*float64{&r.A1P1, &r.A2P2, &r.A3P3}[third] += share * wt * v[i]
	}
	r.Mean /= total
	r.A1P1, r.A2P2, r.A3P3 = r.A1P1/sum[0], r.A2P2/sum[1], r.A3P3/sum[2]
	return r
}
