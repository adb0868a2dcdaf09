package cohort

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

const (
	shownRanks  = 6   // strongest correlations shown
	shownDrifts = 0.1 // of the source's spread: smaller shifts of a mean are not shown
)

// Text returns the summary in plain words, the same bytes for the same members.
func (s *Summary) Text() string {
	var b strings.Builder
	rejected := 0
	for _, n := range s.Rejected {
		rejected += n
	}
	fmt.Fprintf(&b, "%d virtual patients; %d draws were impossible and drawn again", s.N, rejected)
	b.WriteString(counts(s.Rejected, rejected) + ".\n")
	if s.Unsettled > 0 {
		fmt.Fprintf(&b, "In %d the leaflets did not settle in three dimensions: the sections' numbers stand there, and their row says so.\n", s.Unsettled)
	}
	if s.NotConverged > 0 {
		fmt.Fprintf(&b, "Not converged: %d; kept in the file with their status, left out of everything below.\n", s.NotConverged)
	}
	for g := range s.ByGroup {
		if s.ByGroup[g].N > 0 {
			s.group(&b, Group(g))
		}
	}
	s.drifts(&b)
	if s.Repairs {
		b.WriteString("\nBeside the outside (patients with a leak; nothing was tuned to it):\n")
		for _, g := range s.Gaps() {
			if !math.IsNaN(g.Model) {
				fmt.Fprintf(&b, "  %s: model %.0f %%, outside %.0f %%, gap %+.0f points (%s)\n", g.What, 100*g.Model, 100*g.Outside, 100*(g.Model-g.Outside), g.Source)
			}
		}
	}
	return b.String()
}

func (s *Summary) group(b *strings.Builder, g Group) {
	p := &s.ByGroup[g]
	fmt.Fprintf(b, "\n%s: %d patients\n  leak before%s\n", strings.ToUpper(g.String()[:1])+g.String()[1:], p.N, counts(p.Before, p.N))
	if !s.Repairs {
		return
	}
	fmt.Fprintf(b, "  the repair fits in %d (%.0f %%)", p.Fits, 100*share(p.Fits, p.N))
	if p.Fits < p.N {
		b.WriteString("; not" + counts(p.Unfit, p.N))
	}
	b.WriteString("\n")
	if p.Fits == 0 {
		return
	}
	fmt.Fprintf(b, "  where it fits: leak after%s\n", counts(p.After, p.Fits))
	fmt.Fprintf(b, "  artery compression possible or likely in %.0f %% (likely in %.0f %%), narrowed by %g %% or more in %.0f %%; gradient above %g mmHg in %.0f %%\n",
		100*share(p.Risk, p.Fits), 100*share(p.Likely, p.Fits), Seen, 100*share(p.Narrowed, p.Fits), gradientLimit, 100*share(p.Gradient, p.Fits))
	for i, name := range Responses() {
		if q, ok := s.Quantiles(g, i); ok {
			fmt.Fprintf(b, "  %s: 5th to 95th percentile %.2f, %.2f, %.2f, %.2f, %.2f (5, 25, 50, 75, 95)\n", name, q[0], q[1], q[2], q[3], q[4])
		}
		for k, r := range s.Deciding(g, i) {
			if k == shownRanks {
				break
			}
			fmt.Fprintf(b, "    rank correlation with %-34s %+.2f (%+.2f to %+.2f, n = %d)\n", r.Path, r.Rho, r.Low, r.High, r.N)
		}
	}
}

// drifts names every number whose mean left its source's by more than a tenth of the spread and two standard errors.
func (s *Summary) drifts(b *strings.Builder) {
	var lines []string
	for _, d := range s.Drifts() {
		g := d.Group
		off := d.Mean - d.Marginal.Mean[g]
		if math.Abs(off) > shownDrifts*d.Marginal.SD[g] && math.Abs(off) > 2*d.SD/math.Sqrt(float64(d.N)) {
			lines = append(lines, fmt.Sprintf("  %s, %s: %.3g ± %.3g, source %.3g ± %.3g\n", d.Marginal.Path, g, d.Mean, d.SD, d.Marginal.Mean[g], d.Marginal.SD[g]))
		}
	}
	if len(lines) > 0 {
		b.WriteString("\nMeans that rejecting the impossible moved away from their source:\n" + strings.Join(lines, ""))
	}
}

// counts words a count by its keys, most frequent first.
func counts(m map[string]int, of int) string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool {
		if m[keys[i]] != m[keys[j]] {
			return m[keys[i]] > m[keys[j]]
		}
		return keys[i] < keys[j]
	})
	parts := make([]string, len(keys))
	for i, k := range keys {
		parts[i] = fmt.Sprintf("%s %d (%.0f %%)", k, m[k], 100*share(m[k], of))
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, "; ")
}
