package sweep

import (
	"bytes"
	"io"
	"strings"
	"testing"
)

// A part of a sweep as written on the command line.
func FuzzParseShard(f *testing.F) {
	for _, s := range []string{"1/1", "2/8", "0/3", "9/8", "-1/2", "1/99999999999999999999", "1/2/3", " 1 / 2 "} {
		f.Add(s, 100)
	}
	f.Fuzz(func(t *testing.T, text string, rows int) {
		s, err := ParseShard(text)
		if err != nil || rows < 0 || rows > 10000 {
			return
		}
		if s.Number < 1 || s.Number > s.Of {
			t.Fatalf("%q is shard %d of %d", text, s.Number, s.Of)
		}
		if n := s.Count(rows); n < 0 || n > rows || n > 0 && (s.Row(n-1) >= rows || s.Row(0) < 0) {
			t.Fatalf("%q of %d rows: %d rows, the last is %d", text, rows, n, s.Row(n-1))
		}
	})
}

// A result file that an earlier run left, damaged in any way: refused, or a number of complete rows that are really there.
func FuzzResume(f *testing.F) {
	m := grid(f)
	head := m.Header()
	f.Add([]byte(head))
	f.Add([]byte(head[:len(head)/2]))
	f.Add([]byte(head + "0,5,80,solved,,1\n1,5,"))
	f.Add([]byte("\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if !bytes.HasPrefix(data, []byte(head)) {
			data = append([]byte(head), data...) // nearly everything else is refused at once
		}
		done, keep, _, err := Resume(bytes.NewReader(data), m, Whole())
		if err != nil {
			return
		}
		if keep > int64(len(data)) || int64(len(head)) > keep || bytes.Count(data[len(head):keep], []byte("\n")) != done || done > m.Points().Rows() {
			t.Fatalf("%d rows in %d of %d bytes", done, keep, len(data))
		}
	})
}

// Result files of any content: refused by name, or merged into whole lines.
func FuzzMerge(f *testing.F) {
	m := grid(f)
	head := m.Header()
	f.Add([]byte(head), []byte(head))
	f.Add([]byte(head+"0,5,80,solved,,1\n"), []byte(head+"1,5,80,solved,,1\n"))
	f.Add([]byte(""), []byte("#"))
	f.Fuzz(func(t *testing.T, a, b []byte) {
		var out bytes.Buffer
		tally, err := Merge(&out, []Input{{"a.csv", bytes.NewReader(a)}, {"b.csv", bytes.NewReader(b)}})
		if err != nil {
			return
		}
		if n := strings.Count(out.String(), "\n"); n < tally.Rows {
			t.Fatalf("%d rows in %d lines", tally.Rows, n)
		}
		if _, err := Merge(io.Discard, []Input{{"out.csv", &out}}); err != nil {
			t.Fatalf("what was merged cannot be merged: %v", err)
		}
	})
}
