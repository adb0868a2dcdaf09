package sweep

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// Input is one shard's result file.
type Input struct {
	Name string // for messages
	R    io.Reader
}

// file is an input with its next row; row is −1 after the last.
type file struct {
	Input
	in   *bufio.Reader
	row  int
	line string
}

// Merge writes the rows of all inputs in order, to the same bytes as one run of everything. Memory does not grow with
// the rows. Rows in two files must be the same. The error names the file, or says how many rows are missing; then what
// was written must be thrown away.
func Merge(w io.Writer, inputs []Input) (Tally, error) {
	var t Tally
	if len(inputs) == 0 {
		panic("sweep: nothing to merge")
	}
	head, files := "", []*file{}
	for _, in := range inputs {
		f := &file{Input: in, in: bufio.NewReader(in.R), row: -1}
		h, err := f.header()
		switch {
		case err != nil:
			return t, err
		case head == "":
			head = h
		case h != head:
			return t, fmt.Errorf("%s: comes from another sweep than %s", in.Name, inputs[0].Name)
		}
		if err := f.next(); err != nil {
			return t, err
		}
		files = append(files, f)
	}
	rows, axes, err := shape(head)
	if err != nil {
		return t, fmt.Errorf("%s: %w", inputs[0].Name, err)
	}
	if _, err := io.WriteString(w, head); err != nil {
		return t, err
	}
	missing, first := 0, 0
	for row := range rows {
		text, err := take(files, row)
		if err != nil {
			return t, err
		}
		if text == "" {
			if missing == 0 {
				first = row
			}
			missing++
			continue
		}
		_, status, reason, err := parse(text, axes)
		if err != nil {
			return t, fmt.Errorf("row %d: %w", row, err)
		}
		t.Add(status, reason)
		if _, err := io.WriteString(w, text); err != nil {
			return t, err
		}
	}
	for _, f := range files {
		if f.row >= 0 {
			return t, fmt.Errorf("%s: row %d is beyond the last row %d", f.Name, f.row, rows-1)
		}
	}
	if missing > 0 {
		return t, fmt.Errorf("%d of %d rows are missing, the first is %d: finish the shards with --resume", missing, rows, first)
	}
	return t, nil
}

// take returns the line of a row from every file that has it next.
func take(files []*file, row int) (string, error) {
	text := ""
	for _, f := range files {
		if f.row != row {
			continue
		}
		if text != "" && text != f.line {
			return "", fmt.Errorf("%s: row %d differs from the same row in another file", f.Name, row)
		}
		text = f.line
		if err := f.next(); err != nil {
			return "", err
		}
	}
	return text, nil
}

// header reads the # lines and the column names.
func (f *file) header() (string, error) {
	var b strings.Builder
	for {
		text, err := f.in.ReadString('\n')
		if err != nil {
			return "", fmt.Errorf("%s: not a sweep's result: the header is not complete", f.Name)
		}
		b.WriteString(text)
		if !strings.HasPrefix(text, "#") {
			return b.String(), nil
		}
	}
}

// next reads the next row; a last line cut short is no row.
func (f *file) next() error {
	text, err := f.in.ReadString('\n')
	if errors.Is(err, io.EOF) {
		f.row, f.line = -1, ""
		return nil
	}
	if err != nil {
		return fmt.Errorf("%s: %w", f.Name, err)
	}
	number, _, _ := strings.Cut(text, ",")
	row, err := strconv.Atoi(number)
	if err != nil || row <= f.row {
		return fmt.Errorf("%s: the line after row %d does not begin with a later row's number", f.Name, f.row)
	}
	f.row, f.line = row, text
	return nil
}

// shape reads the number of rows and of axes from a header.
func shape(head string) (rows, axes int, err error) {
	lines := strings.Split(strings.TrimSuffix(head, "\n"), "\n")
	for _, l := range lines {
		if n, ok := strings.CutPrefix(l, "# rows "); ok {
			rows, err = strconv.Atoi(n)
		}
	}
	columns, problem := csv.NewReader(strings.NewReader(lines[len(lines)-1])).Read()
	axes = slices.Index(columns, "status") - 1
	if err != nil || problem != nil || rows < 1 || rows > MaxRows || axes < 1 {
		return 0, 0, errors.New("not a sweep's result: the header names no rows or no columns")
	}
	return rows, axes, nil
}
