package calibrate

import (
	"fmt"
	"io"
	"math"

	"annuloscope/sim/ring"
	"annuloscope/sim/ring/specimen"
	"gonum.org/v1/gonum/spatial/r3"
)

// Prediction is one published effect that the fit did not use, and what the model says.
type Prediction struct {
	Name      string
	Unit      string
	Published float64 // NaN: no figure published, only the model's
	SD        float64 // 0: none published
	Model     float64
	Source    string
	Note      string
}

// Gap is the model less the published figure, in its unit.
func (p Prediction) Gap() float64 { return p.Model - p.Published }

// Predict evaluates every validation row with the constants c. Nothing here is tuned.
func Predict(c ring.Constants) []Prediction {
	none := math.NaN()
	var out []Prediction
	pulled := suturesPulled(c, 32)
	total := 0.0
	for k, f := range []struct{ v, sd float64 }{{1.2, 0.9}, {1.5, 1.0}, {0.8, 0.2}} {
		out = append(out, Prediction{fmt.Sprintf("suture to P%d at 32 %% downsizing", k+1), "N", f.v, f.sd, pulled.Ties[k].TensionN, "S46",
			"each suture shortened by 32 %; trigone side and suture lengths are not published"})
		total += pulled.Ties[k].TensionN
	}
	out = append(out, Prediction{"all three sutures at 32 % of their own length", "N", 3.5, 1.3, total, "S46", "the other reading of downsizing"})
	ic, area := dilated(c)
	out = append(out,
		Prediction{"dilatation: commissural gain when septal-lateral gains 25 %", "%", 9, 5, ic, "S44", "uniform outward pull on the posterior annulus; the model stretches where the sheep grew"},
		Prediction{"dilatation: area gain when septal-lateral gains 25 %", "%", 36, 14, area, "S44", "same"})
	ap, icStiff := tieStiffness(c)
	out = append(out,
		Prediction{"force on a rigid transducer, septal-lateral, 90 mmHg", "N", 3.9, 0.8, 4 * ap, "S47",
			"stiffness between A2 and P2 × 4 mm (S01: 24 → 28 mm over systole); the measured force is preload, not stiffness"},
		Prediction{"force on a rigid transducer, commissural, 90 mmHg", "N", 2.6, 0.6, 4 * icStiff, "S47", "same, 4 mm (S01: 35 → 39 mm)"},
		Prediction{"commissural force without ring", "N", 3.0, 1.1, 4 * icStiff, "S48", "same"})
	six, eleven := crossCinch(c, 26, 6), crossCinch(c, 35, 11)
	out = append(out,
		Prediction{"direct septal-lateral cinch by 6.0 mm: tension", "N", none, 0, six.Ties[0].TensionN, "S89", "no force published"},
		Prediction{"direct septal-lateral cinch 35 → 24 mm: tension", "N", none, 0, eleven.Ties[0].TensionN, "S90", "no force published"})
	r := cinch(c, 2.1)
	out = append(out,
		Prediction{"sinus device lowers the septal-lateral diameter (1 yes)", "", 1, 0, sign(r.SeptalLateralLoss()), "S85", "direction only"},
		Prediction{"combined secant stiffness of the cinch", "N/mm", 0.33, 0, 2.1 / r.SeptalLateralLoss(), "S45, derived", "from the fitted rows, so a check of arithmetic"},
		Prediction{"share of the posterior arc beside the covered vein", "%", 80, 0, coveredShare(), "S30, derived",
			"of the specimen used here, not of the solver"})
	rods := input(rodSheep(), c)
	rods.Rods = &ring.Rods{ProximalMM: 6, DistalMM: leaving(rods), Count: 3, BendingNMM2: 1000}
	rr := ring.Solve(rods)
	out = append(out, Prediction{"rods in the sinus: septal-lateral fall", "mm", 6, 2.1, rr.SeptalLateralLoss(), "M17 (from memory)",
		"three rods of 1000 N·mm² assumed; the stiffness is not known"})
	return out
}

func sign(x float64) float64 {
	if x > 0 {
		return 1
	}
	return 0
}

// rodSheep is a sheep with the published diameter of 30 mm (M17).
func rodSheep() specimen.Shape {
	s := sheep()
	s.SeptalLateral, s.Commissural = 30, 40
	return s
}

// dilated pulls the posterior annulus outward until the septal-lateral diameter has grown by a quarter, and returns the
// growth of commissural diameter and area in %.
func dilated(c ring.Constants) (ic, area float64) {
	in := input(sheep(), c)
	n := len(in.Annulus.Rest)
	var s ring.Solver
	var r ring.Result
	lo, hi := 0.0, 1.0
	for range 40 {
		f := (lo + hi) / 2
		in.Loads = in.Loads[:0]
		for i, p := range in.Annulus.Rest {
			d := r3.Sub(in.Annulus.Rest[(i+1)%n], in.Annulus.Rest[(i+n-1)%n])
			normal := r3.Unit(r3.Vec{X: d.Y, Y: -d.X})
			if p.Y < 0 {
				in.Loads = append(in.Loads, ring.Load{Point: i, Force: r3.Scale(f*(1-in.Annulus.Fibrous[i]), normal)})
			}
		}
		s.Solve(in, &r)
		if sl, _, _ := losses(&r); -sl < 25 {
			lo = f
		} else {
			hi = f
		}
	}
	_, ic, area = losses(&r)
	return -ic, -area
}

// tieStiffness is the stiffness in N/mm of the sheep's annulus, without its vein in use, between A2 and P2 and between
// the commissures.
func tieStiffness(c ring.Constants) (septal, commissural float64) {
	stiff := func(a, b int) float64 {
		in := input(sheep(), c)
		in.Ties = []ring.Tie{{A: a, B: b, ShorteningMM: 1}}
		r := ring.Solve(in)
		return r.Ties[0].TensionN / r.Ties[0].AchievedMM
	}
	m := ring.FindMarks(input(sheep(), c).Annulus.Rest)
	return stiff(int(math.Round(m.A2)), int(math.Round(m.P2))), stiff(int(m.Posteromedial), int(math.Round(m.Anterolateral)))
}

// crossCinch ties A2 to P2 in a sheep of the given diameter and shortens by mm.
func crossCinch(c ring.Constants, diameter, mm float64) ring.Result {
	s := sheep()
	s.SeptalLateral, s.Commissural = diameter, diameter*36/26
	in := input(s, c)
	m := ring.FindMarks(in.Annulus.Rest)
	in.Ties = []ring.Tie{{A: int(math.Round(m.A2)), B: int(math.Round(m.P2)), ShorteningMM: mm}}
	return ring.Solve(in)
}

// coveredShare is the share of the posterior arc of the human specimen beside the stretch of vein on the atrium, %.
func coveredShare() float64 {
	in := input(specimen.Functional(), Prior())
	from, to := ring.PosteriorArc(&in.Annulus)
	n := float64(len(in.Annulus.Rest))
	lo, hi := math.Inf(1), math.Inf(-1)
	for j, p := range in.Vein.Partner {
		if in.Vein.OnAtrium[j] >= 0.5 {
			if p < from {
				p += n
			}
			lo, hi = math.Min(lo, p), math.Max(hi, p)
		}
	}
	return 100 * (math.Min(hi, to) - math.Max(lo, from)) / (to - from)
}

// WriteTable prints published, predicted and gap of every row.
func WriteTable(w io.Writer, rows []Prediction) error {
	for _, p := range rows {
		published, gap := "not published", ""
		if !math.IsNaN(p.Published) {
			published = fmt.Sprintf("%.3g", p.Published)
			gap = fmt.Sprintf("%+.3g", p.Gap())
			if p.SD > 0 {
				published += fmt.Sprintf(" ± %.2g", p.SD)
				gap += fmt.Sprintf(" (%+.1f SD)", p.Gap()/p.SD)
			}
		}
		if _, err := fmt.Fprintf(w, "%-62s | %-14s | %7.3g %-4s | %-18s | %s; %s\n", p.Name, published, p.Model, p.Unit, gap, p.Source, p.Note); err != nil {
			return err
		}
	}
	return nil
}
