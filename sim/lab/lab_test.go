package lab_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"annuloscope/sim/hydraulic"
	"annuloscope/sim/lab"
	"annuloscope/sim/units"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, tol)
	}
}

// physics.md B, Gorlin rows and the identities behind the constants.
func TestGorlinRows(t *testing.T) {
	near(t, "mitral 1", float64(lab.GorlinMitral(5000, 75, 0.40, 10)), 1.3980, 1e-4)
	near(t, "mitral 2", float64(lab.GorlinMitral(4000, 80, 0.36, 16)), 0.9210, 1e-4)
	near(t, "aortic", float64(lab.GorlinAortic(5000, 80, 0.33, 50)), 0.6046, 1e-4)
	near(t, "overall coefficient", 37.7/units.JetSpeedPerRootMMHg, 0.752, 1e-3)
	near(t, "0.85 × 44.3", 0.85*44.3, 37.7, 0.05)
}

// physics.md B, PHT rows.
func TestHalfTimeRows(t *testing.T) {
	for pht, want := range map[float64]float64{220: 1.000, 150: 1.467, 110: 2.000} {
		near(t, fmt.Sprint(pht), float64(lab.AreaFromHalfTime(pht)), want, 1e-3)
	}
	near(t, "share of deceleration", lab.HalfTimeFromDeceleration(1), 0.29289, 1e-5)
	for _, r := range []struct{ area, compliance, dp, want float64 }{{1, 5, 14, 219.18}, {1.5, 5, 10, 123.50}, {2, 6, 8, 99.41}, {1, 4, 10, 148.19}} {
		a := units.EffectiveCM2(r.area)
		near(t, fmt.Sprint(r), lab.EmptyingHalfTime(r.compliance, r.dp, a), r.want, 1e-3*r.want)
		// The same from a wave: step the emptying by its own law dΔp/dt = −Q/Cn and read the half-time off it.
		var w lab.Wave
		dp := r.dp
		const dt = 1e-5
		for k := 0; dp > 0.1; k++ {
			q := hydraulic.Flow(a, dp)
			if k%100 == 0 {
				w.TimeS, w.PressureMMHg, w.FlowMLPerS = append(w.TimeS, float64(k)*dt), append(w.PressureMMHg, dp), append(w.FlowMLPerS, q)
			}
			dp -= q / r.compliance * dt
		}
		near(t, "from the wave", lab.PressureHalfTime(w), r.want, 2e-3*r.want)
	}
	if pht := lab.PressureHalfTime(lab.Wave{TimeS: []float64{0, 1}, PressureMMHg: []float64{2, 1.5}, FlowMLPerS: []float64{0, 0}}); !math.IsNaN(pht) {
		t.Errorf("a wave that never halves reads %v", pht)
	}
}

// physics.md B, PISA rows, short form and wedge.
func TestHemisphereRows(t *testing.T) {
	c := lab.Hemisphere(0.9, 40, 500)
	near(t, "flow", c.FlowMLPerS, 203.58, 1e-2)
	near(t, "orifice", float64(c.Orifice), 0.4072, 1e-4)
	near(t, "volume", c.RegurgitantVolume(140), 57.00, 1e-2)
	c = lab.Hemisphere(1.0, 38, 500)
	near(t, "2", float64(c.Orifice), 0.4775, 1e-4)
	near(t, "2 volume", c.RegurgitantVolume(150), 71.63, 1e-2)
	c = lab.Hemisphere(0.6, 40, 480)
	near(t, "3", float64(c.Orifice), 0.1885, 1e-4)
	near(t, "3 volume", c.RegurgitantVolume(130), 24.50, 1e-2)
	near(t, "short form", float64(lab.ShortForm(0.9)), 0.405, 1e-9)
	near(t, "exact factor", float64(lab.Hemisphere(1, 40, 500).Orifice), 0.50265, 1e-5)
	near(t, "wedge", float64(lab.Hemisphere(0.9, 40, 500).Wedge(120).Orifice), 0.4072*2/3, 1e-4)
}

// physics.md B, continuity and volumetric rows.
func TestVolumeRows(t *testing.T) {
	outflow := lab.CircleVolume(2.0, 20)
	near(t, "outflow", outflow, 62.83, 1e-2)
	near(t, "continuity", float64(lab.Continuity(outflow, 45)), 1.396, 1e-3)
	v := lab.VolumetricLeak(lab.CircleVolume(3.5, 10), outflow, 120)
	near(t, "leak", v.LeakML, 33.38, 1e-2)
	near(t, "fraction", v.Fraction, 0.347, 1e-3)
	near(t, "orifice", float64(v.Orifice), 0.278, 1e-3)
}

func rectangle(l, w float64) []r2.Vec {
	return []r2.Vec{{X: -l / 2, Y: -w / 2}, {X: l / 2, Y: -w / 2}, {X: l / 2, Y: w / 2}, {X: -l / 2, Y: w / 2}}
}

func ellipse(a, b, turn float64, n int) []r2.Vec {
	var p []r2.Vec
	for i := range n {
		u := 2 * math.Pi * float64(i) / float64(n)
		p = append(p, r2.Rotate(r2.Vec{X: a * math.Cos(u), Y: b * math.Sin(u)}, turn, r2.Vec{}))
	}
	return p
}

// Issue 4: a 20×2 mm slit (aliasing 40, jet 500 cm/s) reads 0.22 ± 2 % by the hemispheric estimate while the true
// orifice is 0.40; a round hole of the same area reads 0.40. The flattening close to the hole is shown beside.
func TestSlitAndRoundHole(t *testing.T) {
	read := func(outline []r2.Vec) lab.LeakReading {
		return lab.ReadLeak(lab.LeakInput{Outline: outline, FlowMLPerS: 200, JetCMPS: 500, AliasCMPS: 40})
	}
	slit := read(rectangle(20, 2))
	round := read(ellipse(math.Sqrt(40/math.Pi), math.Sqrt(40/math.Pi), 0, 720))
	for name, r := range map[string]lab.LeakReading{"slit": slit, "round": round} {
		t.Logf("%s: true %.3f, radius %.2f mm, hemispheric %.4f, whole surface %.4f, near field %.4f cm²", name,
			float64(r.True), r.RadiusMM, float64(r.Hemispheric.Orifice), float64(r.FromShape.Orifice), float64(r.NearField.Orifice))
		near(t, name+" true", float64(r.True), 0.40, 1e-12)
	}
	near(t, "slit", float64(slit.Hemispheric.Orifice), 0.22, 0.02*0.22)
	near(t, "slit, near field", float64(slit.NearField.Orifice), 0.22, 0.02*0.22)
	near(t, "round", float64(round.Hemispheric.Orifice), 0.40, 1e-3)
	near(t, "round from its surface", float64(round.FromShape.Orifice), 0.40, 1e-3)
	if e := float64(slit.FromShape.Orifice)/0.40 - 1; e < 0 || e > 0.1 {
		t.Errorf("the whole surface of the slit errs by %v, want 0 to 10 %% above", e)
	}
	// Closed forms of the near field, solid angles of disc and rectangle over the axis (independent of the polygon sum).
	a := math.Sqrt(40 / math.Pi)
	disc := a / math.Tan(math.Acos(1-40./500)) // 1−cos = Va/v0 gives the distance
	near(t, "disc", float64(round.NearField.Orifice), 2*math.Pi*disc*disc/100*40/500, 1e-4)
	z := math.Sqrt((-101 + math.Sqrt(101*101-4*(100-math.Pow(10/math.Sin(math.Pi/2*40/500), 2)))) / 2)
	near(t, "rectangle", float64(slit.NearField.Orifice), 2*math.Pi*z*z/100*40/500, 1e-6)
}

// The field of the line sink: divergence-free and curl-free by differences, the flow through its isovelocity surface
// is the flow put in, and a direct sum of point sinks gives the same speed.
func TestSinkField(t *testing.T) {
	s := lab.Sink{FocalMM: 9.95, FlowMLPerS: 200}
	for _, p := range [][2]float64{{0, 5}, {3, 2}, {9.9, 1}, {14, 4}, {30, 0.5}} {
		const h = 1e-4
		u := func(x, y float64) (float64, float64) { return s.Velocity(x, y) }
		up, _ := u(p[0]+h, p[1])
		um, _ := u(p[0]-h, p[1])
		_, vp := u(p[0], p[1]+h)
		_, vm := u(p[0], p[1]-h)
		ua, _ := u(p[0], p[1]+h)
		ub, _ := u(p[0], p[1]-h)
		_, va := u(p[0]+h, p[1])
		_, vb := u(p[0]-h, p[1])
		scale := math.Hypot(up, vp) / p[1]
		near(t, fmt.Sprint("divergence ", p), (up-um)/(2*h)+((p[1]+h)*vp-(p[1]-h)*vm)/(2*h*p[1]), 0, 1e-5*scale)
		near(t, fmt.Sprint("curl ", p), (ua-ub)/(2*h)-(va-vb)/(2*h), 0, 1e-5*scale)
		sx, sy := 0.0, 0.0
		const n = 20000
		for i := range n {
			xi := -9.95 + 19.9*(float64(i)+0.5)/n
			r := math.Hypot(p[0]-xi, p[1])
			k := 200 * 1000 / (2 * math.Pi) / n / (r * r * r) / 10
			sx, sy = sx+k*(p[0]-xi), sy+k*p[1]
		}
		gx, gy := s.Velocity(p[0], p[1])
		near(t, "sum along", gx, sx, 1e-5*math.Hypot(sx, sy))
		near(t, "sum off", gy, sy, 1e-5*math.Hypot(sx, sy))
	}
	for _, f := range []float64{0, 3, 9.95, 20} {
		for _, va := range []float64{15, 40, 80} {
			s := lab.Sink{FocalMM: f, FlowMLPerS: 200}
			area, flow := s.AliasSurface(va)
			near(t, fmt.Sprintf("flow through the surface, f %v, Va %v", f, va), flow, 200, 0.2)
			if area*va < 200*(1-1e-3) {
				t.Errorf("f %v, Va %v: area × Va is %v, below the flow", f, va, area*va)
			}
			p := s.AliasProfile(va)
			near(t, "straight out", p[0].Y, s.AliasRadius(va), 1e-6)
		}
	}
}

// Shapes: extents along the principal axes whatever the turn and orientation of the polygon; the estimate falls
// steadily as a hole of the same area grows longer.
func TestShapes(t *testing.T) {
	s := lab.ShapeOf(ellipse(8, 3, 0.7, 400))
	near(t, "length", s.LengthMM, 16, 1e-2)
	near(t, "width", s.WidthMM, 6, 1e-2)
	flipped := rectangle(4, 12)
	flipped[1], flipped[3] = flipped[3], flipped[1]
	if s := lab.ShapeOf(flipped); math.Abs(s.LengthMM-12) > 1e-9 || math.Abs(s.WidthMM-4) > 1e-9 {
		t.Errorf("clockwise rectangle: %+v", s)
	}
	last := 1.0
	for _, ratio := range []float64{1, 1.5, 2, 3, 5, 10} {
		a := math.Sqrt(40 / math.Pi * ratio)
		r := lab.ReadLeak(lab.LeakInput{Outline: ellipse(a, a/ratio, 0, 300), FlowMLPerS: 200, JetCMPS: 500, AliasCMPS: 40})
		got := float64(r.Hemispheric.Orifice)
		if got >= last {
			t.Errorf("ratio %v reads %v, not below %v", ratio, got, last)
		}
		last = got
	}
}

// A diastolic wave of the flow shape through a known effective area: the formula's own error appears. With Δp from
// the same flow, Gorlin reads A·(50/37.7)/√formfactor exactly, and low by forward/total when the forward output of a
// leaking valve is used.
func TestGorlinFromWave(t *testing.T) {
	const area, volume, time = 2.4, 90.0, 0.4
	var w lab.Wave
	for i := range 4001 {
		u := float64(i) / 4000
		q := volume / time * hydraulic.FlowShape(u)
		w.TimeS = append(w.TimeS, 1+u*time)
		w.FlowMLPerS = append(w.FlowMLPerS, q)
		w.PressureMMHg = append(w.PressureMMHg, hydraulic.Gradient(area, q))
	}
	f := w.Measure()
	near(t, "volume", f.VolumeML, volume, 1e-3*volume)
	// Diastasis of the shape has no flow: 10 % of the filling time is not counted as filling.
	near(t, "time", f.TimeS, 0.9*time, 2e-3*time)
	open := 0.9
	want := area * 50 / 37.7 / math.Sqrt(hydraulic.FormFactor*open)
	got := float64(lab.GorlinFromWave(w, 0))
	t.Logf("true effective %.2f cm², Gorlin %.3f cm²", area, got)
	near(t, "Gorlin", got, want, 3e-3*want)
	near(t, "forward only", float64(lab.GorlinFromWave(w, 70)), got*70/f.VolumeML, 1e-9)
}

func TestBadWave(t *testing.T) {
	for _, w := range []lab.Wave{{}, {TimeS: []float64{0, 0}, PressureMMHg: []float64{1, 1}, FlowMLPerS: []float64{1, 1}}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%+v must panic", w)
				}
			}()
			w.Measure()
		}()
	}
}

func BenchmarkReadLeak(b *testing.B) {
	in := lab.LeakInput{Outline: rectangle(20, 2), FlowMLPerS: 200, JetCMPS: 500, AliasCMPS: 40}
	for b.Loop() {
		lab.ReadLeak(in)
	}
}

func ExampleReadLeak() {
	slit := []r2.Vec{{X: -10, Y: -1}, {X: 10, Y: -1}, {X: 10, Y: 1}, {X: -10, Y: 1}}
	r := lab.ReadLeak(lab.LeakInput{Outline: slit, FlowMLPerS: 200, JetCMPS: 500, AliasCMPS: 40})
	fmt.Printf("true %.2f cm², hemispheric estimate %.2f cm²\n", float64(r.True), float64(r.Hemispheric.Orifice))
	// Output: true 0.40 cm², hemispheric estimate 0.22 cm²
}
