package sweep

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"sort"
	"strconv"
	"strings"
)

// Tally counts rows by status and reason.
type Tally struct {
	Rows    int
	Reasons map[string]int // "status: reason" of every row that was not solved
}

// Add counts one row.
func (t *Tally) Add(status, reason string) {
	t.Rows++
	if status == Solved {
		return
	}
	if t.Reasons == nil {
		t.Reasons = map[string]int{}
	}
	t.Reasons[status+": "+reason]++
}

// Text words the tally, one line for the rows and one for each reason, most frequent first.
func (t *Tally) Text() string {
	keys, bad := []string{}, 0
	for k, n := range t.Reasons {
		keys = append(keys, k)
		bad += n
	}
	sort.Slice(keys, func(i, j int) bool {
		a, b := t.Reasons[keys[i]], t.Reasons[keys[j]]
		return a > b || a == b && keys[i] < keys[j]
	})
	var b strings.Builder
	fmt.Fprintf(&b, "%d rows, %d of them without a solution.\n", t.Rows, bad)
	for i, k := range keys {
		if i == 20 {
			fmt.Fprintf(&b, "  and %d more reasons\n", len(keys)-i)
			break
		}
		fmt.Fprintf(&b, "  %d × %s\n", t.Reasons[k], k)
	}
	return b.String()
}

// Resume reads the file that an earlier run of this manifest and shard left. It returns how many rows are complete, how
// many bytes to keep (a last line cut short is dropped) and their tally. The error says why the file does not belong
// here.
func Resume(r io.Reader, m *Manifest, s Shard) (done int, keep int64, t Tally, err error) {
	head, rows := m.Header(), m.Points().Rows()
	in := bufio.NewReader(r)
	found := make([]byte, len(head))
	n, err := io.ReadFull(in, found)
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		return 0, 0, t, err
	}
	if string(found[:n]) != head[:n] {
		return 0, 0, t, errors.New("the file belongs to another sweep or another version: its header differs")
	}
	if n < len(head) {
		return 0, 0, t, nil // killed while writing the header: begin again
	}
	keep = int64(n)
	for {
		text, err := in.ReadString('\n')
		if errors.Is(err, io.EOF) {
			return done, keep, t, nil // whatever stands after the last newline was cut short
		}
		if err != nil {
			return 0, 0, t, err
		}
		row, status, reason, err := parse(text, len(m.Axes))
		if err != nil || done >= s.Count(rows) || row != s.Row(done) {
			return 0, 0, t, fmt.Errorf("line %d after the header is not the next row of shard %d/%d: was the file edited, or is it another shard's?", done+1, s.Number, s.Of)
		}
		t.Add(status, reason)
		done++
		keep += int64(len(text))
	}
}

// parse reads the parts of a row's line that bookkeeping needs.
func parse(text string, axes int) (row int, status, reason string, err error) {
	fields, err := csv.NewReader(strings.NewReader(text)).Read()
	if err != nil {
		return 0, "", "", err
	}
	if len(fields) < axes+3 {
		return 0, "", "", errors.New("too few columns")
	}
	row, err = strconv.Atoi(fields[0])
	return row, fields[axes+1], fields[axes+2], err
}
