package verify

import (
	"fmt"

	"annuloscope/sim/artery"
	"annuloscope/sim/ring"
	"annuloscope/sim/units"
)

// compression checks sim/artery.
func compression() []Row {
	s := &sheet{group: "F artery", source: "physics.md F, "}
	for i, x := range []float64{0.9, 0.7, 0.5, 0.3} {
		f := artery.Flatten(x)
		s.exact(fmt.Sprintf("area of an ellipse of minor radius %g at constant perimeter", x), "1", []float64{0.98570, 0.88187, 0.69655, 0.44846}[i], f.Area, 1e-4, "ellipse")
		s.exact(fmt.Sprintf("its major radius, minor %g", x), "1", []float64{1.09522, 1.25981, 1.39311, 1.49488}[i], f.Major, 1e-4, "ellipse")
		s.exact(fmt.Sprintf("area of the stadium, minor %g", x), "1", []float64{0.99, 0.91, 0.75, 0.51}[i], f.StadiumArea, 1e-12, "stadium")
	}
	for i, x := range []float64{0.8, 0.7, 0.5, 0.3} {
		s.exact(fmt.Sprintf("conductance of the ellipse, minor %g", x), "1", []float64{0.82964, 0.66036, 0.30853, 0.07760}[i], artery.Flatten(x).Conductance, 1e-4, "Poiseuille conductance")
	}
	s.share("critical pressure of a wall of 400 kPa, 0.5, 0.2", "mmHg", 8.00, units.PressureToMMHg(artery.CriticalPressure(0.4, 0.5, 0.2)), 1e-3, "critical pressure")
	for i, d := range []float64{0.3, 0.5, 0.6, 0.7, 0.8} {
		total, _ := artery.YoungTsai(3, 10, d, 1, 1050)
		s.share(fmt.Sprintf("drop of a narrowing of %g %%, 1 mL/s", 100*d), "mmHg", []float64{0.776, 3.352, 8.598, 28.18, 145.6}[i], total, 1e-3, "worked, S42")
	}
	bed := artery.Bed{RestMLPerS: 1, Dilation: 4, ZeroFlowMMHg: 10}
	for i, d := range []float64{0.3, 0.5, 0.6, 0.7, 0.75} {
		s.share(fmt.Sprintf("flow reserve at a narrowing of %g %%", 100*d), "1", []float64{3.807, 3.190, 2.497, 1.563, 1.075}[i], artery.RoundFlow(3, 10, d, 100, bed).Reserve, 0.01, "flow reserve")
	}
	for i, d := range []float64{0.8, 0.85, 0.9} {
		s.share(fmt.Sprintf("rest flow at a narrowing of %g %%", 100*d), "mL/s", []float64{0.631, 0.280, 0.071}[i], artery.RoundFlow(3, 10, d, 100, bed).RestMLPerS, 0.01, "resting flow falls")
	}
	s.add(Published, "fall of the reserve at 60 % constriction (12 dogs)", "%", 37, 100*(1-artery.RoundFlow(3, 10, 0.6, 100, bed).Reserve/4), 10, "S44")
	return s.rows
}

// delay checks the dissolving spacers of sim/ring.
func delay() []Row {
	s := &sheet{group: "G delayed shortening", source: "physics.md G, "}
	for i, half := range []float64{14, 28, 42} {
		for k, day := range []float64{7, 14, 28, 56} {
			want := [][]float64{{0.7071, 0.5, 0.25, 0.0625}, {0.8409, 0.7071, 0.5, 0.25}, {0.8909, 0.7937, 0.63, 0.3969}}[i][k]
			s.exact(fmt.Sprintf("hold left on day %g, half-life %g days", day, half), "1", want, ring.FirstOrder(half).Residual(day), 1e-4, "first order")
		}
	}
	for _, c := range []struct {
		weeks, want float64
		kind        Kind
		source      string
	}{{2, 74, Secondary, "S45"}, {4, 50, Secondary, "S45"}, {6, 25, Secondary, "S45"}, {4, 58, Published, "S46"}, {8, 14, Published, "S46"}} {
		s.add(c.kind, fmt.Sprintf("strength of the suture in week %g (rates read off these rows)", c.weeks), "%", c.want, 100*ring.DefaultDelay().Residual(7*c.weeks), 10, c.source)
	}
	return s.rows
}
