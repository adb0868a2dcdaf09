package verify

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
)

// Carried is the part of the checks that the program shows: counts, and the rows on which it disagrees with its source.
type Carried struct {
	Rows          int          `json:"rows"`
	Exact         int          `json:"exact"`
	Passed        int          `json:"passed"`
	Failed        int          `json:"failed"`
	Gaps          int          `json:"gaps"`
	NotAsymptotic int          `json:"not_asymptotic"`
	Disagree      []CarriedRow `json:"disagree"`
}

// CarriedRow is a row whose numbers are rounded for reading.
type CarriedRow struct {
	Quantity  string  `json:"quantity"`
	Unit      string  `json:"unit"`
	Expected  float64 `json:"expected"`
	Tolerance float64 `json:"tolerance"`
	Ours      float64 `json:"ours"`
	Source    string  `json:"source"`
	Kind      Kind    `json:"kind"`
}

// Carry sums up rows. Numbers have as many decimals as the tolerance needs to be seen with two figures.
func Carry(rows []Row) Carried {
	n := Count(rows)
	c := Carried{Rows: len(rows), Passed: n[Pass], Failed: n[Fail], Gaps: n[Gap], NotAsymptotic: n[NotAsymptotic]}
	for _, r := range rows {
		if r.Kind == Exact {
			c.Exact++
		}
		if r.Verdict != Gap && r.Verdict != Fail {
			continue
		}
		unit := r.Unit
		if unit == "1" {
			unit = ""
		}
		c.Disagree = append(c.Disagree, CarriedRow{r.Quantity, unit, figures(r.Expected, r.Tolerance), figures(r.Tolerance, r.Tolerance),
			figures(r.Ours, r.Tolerance), strings.TrimSpace(r.Source), r.Kind})
	}
	return c
}

// figures rounds v to the second figure of the tolerance.
func figures(v, tolerance Number) float64 {
	t := math.Abs(float64(tolerance))
	if !(t > 0) || math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
		return 0
	}
	unit := math.Pow(10, math.Floor(math.Log10(t))-1)
	d := max(0, int(math.Round(-math.Log10(unit))))
	var out float64
	_, err := fmt.Sscanf(fmt.Sprintf("%.*f", d, float64(v)), "%g", &out)
	if err != nil {
		panic("verify: " + err.Error())
	}
	return out
}

// JSON writes it as the file that is carried.
func (c Carried) JSON() []byte {
	b, err := json.MarshalIndent(c, "", " ")
	if err != nil {
		panic("verify: " + err.Error())
	}
	return append(b, '\n')
}

// Markdown writes the rows that disagree as a table with the counts below it, as the README shows them.
func (c Carried) Markdown() string {
	var b strings.Builder
	b.WriteString("| quantity | unit | expected | allowed | ours | source | kind |\n|---|---|---|---|---|---|---|\n")
	for _, r := range c.Disagree {
		cells := []string{r.Quantity, r.Unit, fmt.Sprint(r.Expected), "± " + fmt.Sprint(r.Tolerance), fmt.Sprint(r.Ours), r.Source, string(r.Kind)}
		for i := range cells {
			cells[i] = strings.ReplaceAll(cells[i], "|", "\\|")
		}
		fmt.Fprintf(&b, "| %s |\n", strings.Join(cells, " | "))
	}
	fmt.Fprintf(&b, "\n%d rows (%d exact): %d PASS, %d FAIL, %d GAP, %d not in asymptotic range.\n", c.Rows, c.Exact, c.Passed, c.Failed, c.Gaps, c.NotAsymptotic)
	return b.String()
}
