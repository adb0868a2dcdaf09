package valve

import (
	"fmt"
)

const (
	note    = "note"
	caution = "caution"
	failure = "failure"

	gradientCaution = 5.0 // mmHg; physics.md A3 (S7, S12), later data conflict
	// traceLeak: a stated orifice below this is a trace, a quarter of what is called mild at most (0.2 cm²); chosen.
	traceLeak = 0.05 // cm²
)

// findings says in plain words what a person should notice.
func findings(s *Solver, p *plan, r *Report) []Finding {
	out := []Finding{}
	add := func(code, severity, text, source string) {
		out = append(out, Finding{Code: code, Severity: severity, Text: text, Source: source})
	}
	for i, c := range r.After.Clips {
		switch c.Condition {
		case "not grasped":
			add("clip-not-grasped", failure, fmt.Sprintf("The %s at %.2f grasps nothing: the gap there is %.1f mm, beyond its reach. It has no effect.", c.Kind, c.Position, c.GapMM), common)
		case "poor grip":
			add("clip-poor-grip", caution, fmt.Sprintf("The %s at %.2f holds little leaflet (grip %.0f %%).", c.Kind, c.Position, 100*c.Held), common)
		case "detached":
			add("clip-detached", failure, fmt.Sprintf("The %s at %.2f holds one leaflet only: it bonds nothing.", c.Kind, c.Position), common)
		}
		if c.Condition == "not grasped" || c.Condition == "poor grip" {
			out[len(out)-1].Fit = clipFit(p, i, &c)
		}
	}
	if g := r.After.Opening.MeanGradientMMHg; g >= gradientCaution && p.hasRepairs {
		add("gradient", caution, fmt.Sprintf("The mean gradient is %.1f mmHg, at or above the warning of %.0f mmHg.", g, gradientCaution), "physics.md A3: S7, S12; later data conflict")
	}
	if n := s.after.ring.Folds; n > 0 && p.hasRepairs {
		add("annulus-folds", caution, fmt.Sprintf("The annulus folds back on itself (places: %d): more of it is gathered there than the model can shorten. A small change may make a fold snap to another place and the septal-lateral diameter jump by up to a millimetre.", n), "limit of the model")
	}
	if p.band != nil {
		s.bandFindings(p, r, add)
	}
	out = append(out, fits(s, p, r)...)
	s.dominanceFinding(add)
	if r.Trial != nil {
		add("rods-on-trial", note, r.Trial.String(), "")
	}
	if a := r.After.Artery; a.Risk != "low" && (p.band != nil || p.rods != nil) {
		add("artery", caution, fmt.Sprintf("The circumflex artery narrows by %.0f %% in the worst view, mostly by the %s: compression is %s.", a.WorstViewNarrowing, a.From, a.Risk), "rule of the model; thresholds chosen")
	}
	b := s.base
	if b.closed.ExcessClamped || s.after.closed.ExcessClamped {
		add("flail-limit", note, "The torn stretch is wider than the section model can follow; its excess is held at the most that still has a closed shape, or at 15 mm.", "limit of the model")
	}
	if e := b.patient.Measured.EffectiveOrificeCM2; e > 0 && e < traceLeak && b.fit.DeficitMM > 0 {
		add("trace-leak", note, fmt.Sprintf("The leak as measured is a trace (%.2f cm²). For it the model takes contact away at the jet (%.1f mm), for a dry valve none: whatever is changed since can act quite differently from a dry valve.", e, b.fit.DeficitMM), "limit of the model")
	}
	if b.closed.FullyTethered {
		add("tethered", note, "Some of the leaflet is drawn straight: the model is at its limit there.", "limit of the model")
	}
	if lo, hi := r.After.Regurgitation.OrificeIntervalCM2[0], r.After.Regurgitation.OrificeIntervalCM2[1]; hi-lo > 0.05 {
		add("interval", note, fmt.Sprintf("The leak after treatment is known only within %.2f to %.2f cm²: the model's invented constants matter here.", float64(lo), float64(hi)), "sim/closure")
	}
	if c := s.circ; c != nil && (s.baseFlow.systolicDrop < leastClosing*c.drop || p.hasRepairs && s.after.flow.systolicDrop < leastClosing*c.drop) {
		add("pressure-lost", caution, "The leak takes more than half of the pressure that closes the valve; the model holds it at half. A heart like this would not last.", "limit of the model")
	}
	if !r.Provenance.Converged {
		add("not-converged", failure, "The solve did not converge: "+r.Provenance.Status+". Do not use the numbers.", "")
	}
	return out
}

func (s *Solver) bandFindings(p *plan, r *Report, add func(code, severity, text, source string)) {
	after := r.After.Sinus
	if s.after.ring.Band.State.Separated {
		add("band-separated", failure, "The tether has separated: it pulls no more.", common)
		return
	}
	if after.SlipMM > 0.05 {
		add("anchor-slip", caution, fmt.Sprintf("An anchor slips by %.1f mm: the pull of %.1f N exceeds its grip.", after.SlipMM, after.TensionN), common)
	}
	if s.base.patient.Artery.CrossingMM < p.distal {
		add("beyond-crossing", note, fmt.Sprintf("The far anchor lies %.0f mm beyond the crossing of the circumflex artery.", p.distal-s.base.patient.Artery.CrossingMM), "S67")
	}
}
