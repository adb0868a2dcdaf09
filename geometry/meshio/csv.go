package meshio

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// parseCSV reads one point per line: x, y, z and optionally radius, separated by commas, semicolons, tabs or blanks.
// Empty lines and lines that start with # are skipped. The first other line may be a header; it then names the columns
// (x, y, z, radius or r; in any order, other columns ignored) and may state the unit, as in "x_mm" or "x (cm)": mm, cm or
// m, the same in every column.
func parseCSV(data []byte) (Polyline, error) {
	p := Polyline{Ordered: true}
	columns, width := [4]int{0, 1, 2, -1}, 0
	for n, line := range strings.Split(string(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))), "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		cells := splitCells(line)
		if width == 0 {
			width = len(cells)
			if _, err := strconv.ParseFloat(cells[0], 64); err != nil {
				if columns, p.Unit, err = headerColumns(cells); err != nil {
					return Polyline{}, fmt.Errorf("meshio: line %d: %w", n+1, err)
				}
				continue
			}
			if width != 3 && width != 4 {
				return Polyline{}, fmt.Errorf("meshio: line %d has %d columns: give x, y, z and optionally radius, or a header", n+1, width)
			}
			if width == 4 {
				columns[3] = 3
			}
		}
		if len(cells) != width {
			return Polyline{}, fmt.Errorf("meshio: line %d has %d columns, the lines before it %d: complete the line", n+1, len(cells), width)
		}
		var v [4]float64
		for k, c := range columns {
			if c < 0 {
				continue
			}
			x, err := strconv.ParseFloat(cells[c], 64)
			if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
				return Polyline{}, fmt.Errorf("meshio: line %d, column %d: %q is not a finite number", n+1, c+1, clip(cells[c]))
			}
			if math.Abs(x) > maxCoordinateMM || (k == 3 && x <= 0) {
				return Polyline{}, fmt.Errorf("meshio: line %d, column %d: %g is out of range (coordinates within ±%g, radius above 0)", n+1, c+1, x, maxCoordinateMM)
			}
			v[k] = x
		}
		p.Points = append(p.Points, r3.Vec{X: v[0], Y: v[1], Z: v[2]})
		if columns[3] >= 0 {
			p.Radii = append(p.Radii, v[3])
		}
		if len(p.Points) > MaxPoints {
			return Polyline{}, fmt.Errorf("meshio: line %d: more than %d points: thin the curve", n+1, MaxPoints)
		}
	}
	if len(p.Points) == 0 {
		return Polyline{}, fmt.Errorf("meshio: the file has no points: give x, y, z, one point per line")
	}
	last := len(p.Points) - 1
	if last >= 3 && p.Points[0] == p.Points[last] {
		p.Closed, p.Points = true, p.Points[:last]
		if p.Radii != nil {
			p.Radii = p.Radii[:last]
		}
	}
	return p, nil
}

func splitCells(line string) []string {
	sep := ""
	for _, s := range []string{",", ";", "\t"} {
		if strings.Contains(line, s) {
			sep = s
			break
		}
	}
	if sep == "" {
		return strings.Fields(line)
	}
	cells := strings.Split(line, sep)
	for i := range cells {
		cells[i] = strings.Trim(strings.TrimSpace(cells[i]), `"`)
	}
	return cells
}

func headerColumns(cells []string) (out [4]int, stated string, err error) {
	out = [4]int{-1, -1, -1, -1}
	for i, c := range cells {
		name := strings.ToLower(c)
		unit := ""
		if k := strings.IndexAny(name, "_ (["); k >= 0 {
			name, unit = name[:k], strings.Trim(name[k:], "_ ()[]")
		}
		k := map[string]int{"x": 0, "y": 1, "z": 2, "radius": 3, "r": 3}
		at, known := k[name]
		if !known {
			continue
		}
		switch {
		case unit == "":
		case unit != "mm" && unit != "cm" && unit != "m":
			return out, "", fmt.Errorf("column %q is in neither mm, cm nor m: convert it to mm", clip(c))
		case stated != "" && stated != unit:
			return out, "", fmt.Errorf("column %q is in another unit than the one before (%s): use one unit", clip(c), stated)
		default:
			stated = unit
		}
		if out[at] >= 0 {
			return out, "", fmt.Errorf("column %q comes twice", clip(c))
		}
		out[at] = i
	}
	for i, name := range []string{"x", "y", "z"} {
		if out[i] < 0 {
			return out, "", fmt.Errorf("%q is neither numbers nor a header with x, y and z (column %s is missing)", clip(strings.Join(cells, ",")), name)
		}
	}
	return out, stated, nil
}

// clip shortens text from a file for an error message.
func clip(s string) string {
	if len(s) > 40 {
		return s[:40] + "..."
	}
	return s
}

// Meta is one line of provenance: what the value is and the value.
type Meta struct{ Key, Value string }

// WriteCSV writes the points with a header, the notice and the meta lines as comments. A closed curve repeats its first
// point, which is how the reader knows that it is closed. Numbers are written so that they read back exactly.
func WriteCSV(w io.Writer, p Polyline, meta []Meta) error {
	if err := p.check(); err != nil {
		return err
	}
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "# %s\n", NoticeLong)
	for _, m := range meta {
		fmt.Fprintf(b, "# %s: %s\n", oneLine(m.Key), oneLine(m.Value))
	}
	b.WriteString("x_mm,y_mm,z_mm")
	if p.Radii != nil {
		b.WriteString(",radius_mm")
	}
	b.WriteByte('\n')
	n := len(p.Points)
	if p.Closed && n > 0 {
		n++
	}
	for i := range n {
		i %= len(p.Points)
		v := p.Points[i]
		fmt.Fprintf(b, "%s,%s,%s", number(v.X), number(v.Y), number(v.Z))
		if p.Radii != nil {
			fmt.Fprintf(b, ",%s", number(p.Radii[i]))
		}
		b.WriteByte('\n')
	}
	return b.Flush()
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
