package cohort

import (
	"math"
	"strconv"
	"strings"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/valve"
)

// Drawn lists the paths of the numbers that differ between patients, in table order: the anatomy columns of a row.
func Drawn() []anatomy.Parameter {
	vary := map[string]bool{"heart.end_systolic_ml": true, "heart.end_systolic_diameter_mm": true, "leaflet.margin_mm": true,
		"sinus.cover_to_mm": true, "sinus.arch_mm": true, "artery.deep_from_mm": true, "artery.deep_to_mm": true,
		"artery.marginal_mm": true, "artery.diagonal_mm": true, "artery.diameter_mm": true}
	for _, m := range Marginals() {
		vary[m.Path] = true
	}
	var out []anatomy.Parameter
	for _, p := range anatomy.Parameters() {
		if vary[p.Path] {
			out = append(out, p)
		}
	}
	return out
}

// Outcomes lists the numbers of a state that a row shows before and after.
func Outcomes() []valve.Quantity {
	var out []valve.Quantity
	for _, path := range []string{"annulus.septal_lateral_mm", "annulus.area_cm2", "coaptation.contact_mm.mean", "coaptation.depth_mm",
		"regurgitation.effective_orifice_cm2", "regurgitation.volume_ml", "regurgitation.fraction", "opening.anatomic_area_cm2",
		"opening.mean_gradient_mmhg", "sinus.tension_n", "artery.min_clearance_mm", "artery.worst_view_narrowing_pct", "artery.flow_reserve"} {
		q, ok := valve.FindQuantity(path)
		if !ok {
			panic("cohort: no quantity " + path)
		}
		out = append(out, q)
	}
	return out
}

// Header returns the column names of Row; units stand in brackets.
func Header() []string {
	h := []string{"patient", "group", "dominance", "rejected_draws"}
	for _, p := range Drawn() {
		h = append(h, column("anatomy."+p.Path, p.Unit))
	}
	for _, when := range []string{"before.", "after."} {
		for _, q := range Outcomes() {
			h = append(h, column(when+q.Path, q.Unit))
		}
		h = append(h, when+"leak_class", when+"artery_risk")
	}
	return append(h, "fits", "why_not", "status", "engine")
}

func column(path, unit string) string {
	if unit == "" {
		unit = "1"
	}
	return path + " [" + unit + "]"
}

// Row returns one member in the columns of Header; a number that does not apply is empty.
func (m *Member) Row() []string {
	row := []string{strconv.Itoa(m.Index), m.Group.String(), string(m.Case.Patient.Dominance), strconv.Itoa(len(m.Rejected))}
	for _, p := range Drawn() {
		row = append(row, number(*p.At(&m.Case.Patient)))
	}
	outcomes := Outcomes()
	row = state(row, outcomes, &m.Before, true)
	row = state(row, outcomes, &m.After, m.Solved)
	status := "solved"
	switch {
	case !m.Solved:
		status = "no place for the repair"
	case m.Failure != "":
		status = "not converged: " + m.Failure
	}
	return append(row, strconv.FormatBool(m.Fits), m.Unfit, status, m.Engine)
}

func state(row []string, outcomes []valve.Quantity, s *valve.State, ok bool) []string {
	for _, q := range outcomes {
		if v := q.Of(s); ok {
			row = append(row, number(v))
		} else {
			row = append(row, "")
		}
	}
	if !ok {
		return append(row, "", "")
	}
	return append(row, class(s), s.Artery.Risk)
}

// NoGrade stands for a class where none is given, since the orifice interval spans classes.
const NoGrade = "no grade"

// class is the leak's class, or NoGrade.
func class(s *valve.State) string {
	if s.Regurgitation.Grade.Class == "" {
		return NoGrade
	}
	return strings.ReplaceAll(s.Regurgitation.Grade.Class, ",", "")
}

// number writes a number with six figures; empty for NaN.
func number(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', 6, 64)
}
