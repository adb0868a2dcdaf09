package sweep

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

func plain(t testing.TB) casefile.Case {
	t.Helper()
	p := anatomy.Normal()
	p.Mechanism = anatomy.Functional
	p.Annulus.SeptalLateralMM = 34
	p.Measured.DepthMM, p.Measured.ContactMM, p.Measured.EffectiveOrificeCM2 = 8, 2, 0.3
	return casefile.Case{Name: "swept", Patient: p, Repairs: []repair.Step{repair.Must(repair.SinusBand)}}
}

// grid has 12 rows; the four with a far anchor at 120 mm fail, because the vein is shorter.
func grid(t testing.TB) *Manifest {
	t.Helper()
	m, err := New(plain(t), Grid, 0, 0, false, []Axis{
		{Path: "repair.1.distal_mm", List: []float64{84, 90, 120}},
		{Path: "repair.1.shortening_mm", Range: &Range{0, 30, 4}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// whole solves everything in one piece.
func whole(m *Manifest) (string, Tally) {
	p := m.Points()
	w := NewWorker(m, p)
	var b strings.Builder
	var t Tally
	b.WriteString(m.Header())
	for i := range p.Rows() {
		r := w.Row(i)
		b.WriteString(r.Line)
		t.Add(r.Status, r.Reason)
	}
	return b.String(), t
}

func TestGridRunsLastAxisFastest(t *testing.T) {
	p := grid(t).Points()
	if p.Rows() != 12 || !slices.Equal(p.At(0), []float64{84, 0}) || !slices.Equal(p.At(3), []float64{84, 30}) || !slices.Equal(p.At(11), []float64{120, 30}) {
		t.Errorf("%d rows, %v %v %v", p.Rows(), p.At(0), p.At(3), p.At(11))
	}
}

func sampled(t testing.TB, kind string, n int, seed uint64) *Manifest {
	t.Helper()
	m, err := New(plain(t), kind, n, seed, false, []Axis{
		{Path: "annulus.septal_lateral_mm", Range: &Range{From: 30, To: 38}},
		{Path: "sinus.elevation.middle_mm", Range: &Range{From: 0, To: 10}},
		{Path: "repair.1.shortening_mm", Range: &Range{From: 5, To: 25}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Both samples lie in the box. A Latin hypercube has one value in each of n parts of each axis, exactly. A Halton sample
// of b^k rows has one in each of b^k parts of the axis with base b (Owen, arXiv:1706.02808). A smooth integral comes out
// far nearer than the 1/√n of plain random numbers.
func TestSamplesAreEven(t *testing.T) {
	const n = 64
	for _, kind := range []string{LatinHypercube, Halton} {
		m := sampled(t, kind, n, 9)
		p := m.Points()
		sum := 0.0
		for axis, a := range m.Axes {
			filled := map[int]bool{}
			for i := range n {
				u := (p.At(i)[axis] - a.Range.From) / (a.Range.To - a.Range.From)
				if u < 0 || u > 1 {
					t.Fatalf("%s: outside the range: %v", kind, p.At(i))
				}
				filled[int(u*n)] = true
				sum += u * u / n
			}
			if (kind == LatinHypercube || axis == 0) && len(filled) != n {
				t.Errorf("%s, axis %d: %d of %d parts filled", kind, axis, len(filled), n)
			}
		}
		if math.Abs(sum-1) > 0.03 { // three times ∫u² = 1; plain random numbers: ± 0.065
			t.Errorf("%s: integral %.4f, exact 1", kind, sum)
		}
		if slices.Equal(p.At(5), sampled(t, kind, n, 10).Points().At(5)) {
			t.Errorf("%s: two seeds agree", kind)
		}
		if !slices.Equal(p.At(5), sampled(t, kind, n, 9).Points().At(5)) {
			t.Errorf("%s: the same seed disagrees", kind)
		}
	}
}

func TestManifestSurvivesWritingAndReading(t *testing.T) {
	for _, m := range []*Manifest{grid(t), sampled(t, Halton, 40, math.MaxUint64)} {
		again, err := Decode(m.Encode())
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(again.Encode(), m.Encode()) || again.Header() != m.Header() {
			t.Error("another manifest comes back")
		}
	}
}

func TestFailedRowsAreKeptAndCounted(t *testing.T) {
	text, tally := whole(grid(t))
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if len(lines) != 4+12 || tally.Rows != 12 {
		t.Fatalf("%d lines, %d rows", len(lines), tally.Rows)
	}
	if !strings.HasPrefix(text, "# "+valve.Notice) || !strings.Contains(lines[3], "repair.1.shortening_mm [mm]") {
		t.Errorf("header: %q", lines[:4])
	}
	failed := 0
	for _, l := range lines[4:] {
		if strings.Contains(l, ",failed,") && strings.Contains(l, "beyond the end of the vein") {
			failed++
		}
	}
	count := 0
	for _, n := range tally.Reasons {
		count += n
	}
	if failed != 4 || count != 4 || !strings.Contains(tally.Text(), "4 of them without a solution") {
		t.Errorf("%d failed in the file, %d counted; wanted 4: %s", failed, count, tally.Text())
	}
}

func TestMergeGivesTheSameBytesForAnyShards(t *testing.T) {
	m := grid(t)
	want, _ := whole(m)
	p := m.Points()
	for _, of := range []int{1, 2, 5, 13} { // 13: one shard has no row
		var in []Input
		for n := of; n >= 1; n-- {
			s := Shard{n, of}
			text := m.Header()
			w := NewWorker(m, p)
			for k := range s.Count(p.Rows()) {
				text += w.Row(s.Row(k)).Line
			}
			in = append(in, Input{"part", strings.NewReader(text)})
		}
		var out bytes.Buffer
		tally, err := Merge(&out, in)
		if err != nil || out.String() != want || tally.Rows != 12 {
			t.Errorf("%d shards: %v, same %v", of, err, out.String() == want)
		}
	}
}

func TestMergeRefusesWhatDoesNotBelong(t *testing.T) {
	m := grid(t)
	text, _ := whole(m)
	other := sampled(t, Halton, 4, 1).Header()
	rows := strings.SplitAfter(text[len(m.Header()):], "\n")
	for name, c := range map[string]struct {
		files []string
		says  string
	}{
		"nothing there":     {[]string{m.Header()}, "12 of 12 rows are missing"},
		"one row missing":   {[]string{m.Header() + strings.Join(append(slices.Clone(rows[:3]), rows[4:]...), "")}, "the first is 3"},
		"cut last row":      {[]string{text[:len(text)-2]}, "the first is 11"},
		"another sweep":     {[]string{text, other}, "another sweep"},
		"differing row":     {[]string{text, m.Header() + strings.Replace(rows[0], "solved", "failed", 1)}, "differs"},
		"rows out of order": {[]string{m.Header() + rows[1] + rows[0]}, "later row"},
		"no header":         {[]string{"# hello\n"}, "header is not complete"},
		"not a sweep":       {[]string{"a,b\n1,2\n"}, "names no rows"},
		"beyond the end":    {[]string{text + "99,x\n"}, "beyond"},
	} {
		var in []Input
		for _, f := range c.files {
			in = append(in, Input{"part.csv", strings.NewReader(f)})
		}
		if _, err := Merge(&bytes.Buffer{}, in); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A file cut at any byte is taken up again at the last complete row and ends as the same file.
func TestResumeAfterACutAnywhere(t *testing.T) {
	m := grid(t)
	text, _ := whole(m)
	head := len(m.Header())
	for cut := 0; cut <= len(text); cut += 41 {
		done, keep, tally, err := Resume(strings.NewReader(text[:cut]), m, Whole())
		if err != nil {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		rows := 0
		if cut >= head {
			rows = strings.Count(text[head:cut], "\n")
		}
		if done != rows || tally.Rows != rows || keep > int64(cut) || (keep > 0 && text[keep-1] != '\n') {
			t.Fatalf("cut at %d: %d rows, %d bytes kept; wanted %d rows", cut, done, keep, rows)
		}
	}
	for name, bad := range map[string]string{
		"another header": "# x" + text, "another shard's row": text[:head] + "1,84,10,solved,\n", "rubbish": text[:head] + "\x00\x00\n",
		"more rows than there are": text + "12,1,1,solved,\n",
	} {
		if _, _, _, err := Resume(strings.NewReader(bad), m, Whole()); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}

func TestShards(t *testing.T) {
	seen := map[int]int{}
	for n := 1; n <= 5; n++ {
		s, err := ParseShard(string(rune('0'+n)) + "/5")
		if err != nil {
			t.Fatal(err)
		}
		for k := range s.Count(12) {
			seen[s.Row(k)]++
		}
	}
	for i := range 12 {
		if seen[i] != 1 {
			t.Errorf("row %d is in %d shards", i, seen[i])
		}
	}
	for _, bad := range []string{"", "3", "0/4", "5/4", "a/b", "-1/2", "1/9999999"} {
		if _, err := ParseShard(bad); err == nil {
			t.Errorf("%q is taken", bad)
		}
	}
	if s, ok, err := ArrayShard("7", "5", "4"); !ok || err != nil || s != (Shard{3, 4}) {
		t.Errorf("array: %v %v %v", s, ok, err)
	}
	if _, ok, _ := ArrayShard("", "", ""); ok {
		t.Error("no index makes a shard")
	}
	if _, _, err := ArrayShard("9", "1", "4"); err == nil {
		t.Error("an index beyond the count is taken")
	}
}
