package meshio

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// vtpReader walks the elements of one VTP file.
type vtpReader struct {
	order      binary.ByteOrder
	headerSize int
	section    string // Points, Lines, Polys, PointData or other
	arrays     map[string][]float64
	components map[string]int
	radiusName string
	pieces     int
}

func parseVTP(data []byte) (Polyline, error) {
	dec := xml.NewDecoder(bytes.NewReader(data))
	v := &vtpReader{order: binary.LittleEndian, headerSize: 4, arrays: map[string][]float64{}, components: map[string]int{}}
	root := false
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		line, _ := dec.InputPos()
		if err != nil {
			return Polyline{}, fmt.Errorf("meshio: VTP, line %d: %w", line, err)
		}
		switch t := tok.(type) {
		case xml.StartElement:
			if !root && t.Name.Local != "VTKFile" {
				return Polyline{}, fmt.Errorf("meshio: line %d: the file begins with <%s>, not <VTKFile>: export VTK XML polydata (.vtp)", line, clip(t.Name.Local))
			}
			root = true
			if err := v.start(dec, t); err != nil {
				return Polyline{}, fmt.Errorf("meshio: VTP, line %d: %w", line, err)
			}
		case xml.EndElement:
			if t.Name.Local == v.section {
				v.section = ""
			}
		}
	}
	if !root {
		return Polyline{}, fmt.Errorf("meshio: VTP: the file has no <VTKFile>")
	}
	d, err := v.collect()
	if err != nil {
		return Polyline{}, err
	}
	return d.polyline()
}

func (v *vtpReader) start(dec *xml.Decoder, t xml.StartElement) error {
	switch name := t.Name.Local; name {
	case "VTKFile":
		return v.file(t)
	case "AppendedData":
		return fmt.Errorf("data is appended at the end of the file: save with inline data (ascii, or binary without compression)")
	case "Piece":
		if v.pieces++; v.pieces > 1 {
			return fmt.Errorf("the file has more than one Piece: save one curve")
		}
	case "Points", "Lines", "Polys", "PointData", "CellData", "Verts", "Strips", "FieldData":
		v.section = name
	case "DataArray":
		switch v.section {
		case "Points", "Lines", "Polys", "PointData":
			return v.dataArray(dec, t)
		}
		return dec.Skip()
	}
	return nil
}

func (v *vtpReader) file(t xml.StartElement) error {
	if k := attribute(t, "type"); k != "PolyData" {
		return fmt.Errorf("the file holds %q: export PolyData", clip(k))
	}
	if c := attribute(t, "compressor"); c != "" {
		return fmt.Errorf("the data is compressed (%s): save without compression", clip(c))
	}
	switch o := attribute(t, "byte_order"); o {
	case "", "LittleEndian":
	case "BigEndian":
		v.order = binary.BigEndian
	default:
		return fmt.Errorf("byte_order %q is neither LittleEndian nor BigEndian", clip(o))
	}
	switch h := attribute(t, "header_type"); h {
	case "", "UInt32":
	case "UInt64":
		v.headerSize = 8
	default:
		return fmt.Errorf("header_type %q is neither UInt32 nor UInt64", clip(h))
	}
	return nil
}

// dataArray reads one array of a section that matters, when its name matters.
func (v *vtpReader) dataArray(dec *xml.Decoder, t xml.StartElement) error {
	name := attribute(t, "Name")
	key := v.section
	switch v.section {
	case "Lines", "Polys":
		key += " " + name
	case "PointData":
		if v.radiusName != "" || !strings.Contains(strings.ToLower(name), "radius") {
			return dec.Skip()
		}
		v.radiusName = name
	}
	if _, twice := v.arrays[key]; twice {
		return fmt.Errorf("array %q comes twice", clip(key))
	}
	var text []byte
	for {
		tok, err := dec.Token()
		if err != nil {
			return fmt.Errorf("array %q is cut off: %w", clip(key), err)
		}
		if c, ok := tok.(xml.CharData); ok {
			text = append(text, c...)
		}
		if _, ok := tok.(xml.EndElement); ok {
			break
		}
		if _, ok := tok.(xml.StartElement); ok {
			if err := dec.Skip(); err != nil { // InformationKey and the like
				return err
			}
		}
	}
	var values []float64
	var err error
	switch f := attribute(t, "format"); f {
	case "ascii":
		values, err = parseNumbers(text)
	case "binary":
		values, err = v.base64(text, attribute(t, "type"))
	default:
		return fmt.Errorf("array %q has format %q: save with ascii or binary (inline)", clip(key), clip(f))
	}
	if err != nil {
		return fmt.Errorf("array %q: %w", clip(key), err)
	}
	v.components[key] = 1
	if c := attribute(t, "NumberOfComponents"); c != "" {
		if v.components[key], err = strconv.Atoi(c); err != nil {
			return fmt.Errorf("array %q: NumberOfComponents %q is not a number", clip(key), clip(c))
		}
	}
	v.arrays[key] = values
	return nil
}

func parseNumbers(text []byte) ([]float64, error) {
	fields := bytes.Fields(text)
	out := make([]float64, len(fields))
	for i, f := range fields {
		x, err := strconv.ParseFloat(string(f), 64)
		if err != nil {
			return nil, fmt.Errorf("value %d, %q, is not a number", i+1, clip(string(f)))
		}
		out[i] = x
	}
	return out, nil
}

// base64 decodes header and data, which VTK encodes in one piece; a header encoded by itself is read too.
func (v *vtpReader) base64(text []byte, kind string) ([]float64, error) {
	text = bytes.Join(bytes.Fields(text), nil)
	var raw []byte
	for len(text) > 0 {
		part := text
		if i := bytes.IndexByte(text, '='); i >= 0 {
			for i < len(text) && text[i] == '=' {
				i++
			}
			part = text[:i]
		}
		text = text[len(part):]
		b := make([]byte, base64.StdEncoding.DecodedLen(len(part)))
		n, err := base64.StdEncoding.Decode(b, part)
		if err != nil {
			return nil, fmt.Errorf("the base64 data is damaged: %w", err)
		}
		raw = append(raw, b[:n]...)
	}
	if len(raw) < v.headerSize {
		return nil, fmt.Errorf("the base64 data is cut off")
	}
	size := uint64(v.order.Uint32(raw[:4]))
	if v.headerSize == 8 {
		size = v.order.Uint64(raw[:8])
	}
	raw = raw[v.headerSize:]
	if size != uint64(len(raw)) {
		return nil, fmt.Errorf("the base64 data has %d bytes, its header says %d", len(raw), size)
	}
	return decodeNumbers(raw, strings.ToLower(kind), v.order)
}

// decodeNumbers turns raw bytes of a VTK type into numbers. Names of both VTK formats are known.
func decodeNumbers(raw []byte, kind string, order binary.ByteOrder) ([]float64, error) {
	size := typeSize(kind)
	if size == 0 {
		return nil, fmt.Errorf("numbers of type %q are not read: save as float, double or int", clip(kind))
	}
	if len(raw)%size != 0 {
		return nil, fmt.Errorf("%d bytes are no whole number of %s values", len(raw), clip(kind))
	}
	out := make([]float64, len(raw)/size)
	for i := range out {
		b := raw[i*size:]
		switch kind {
		case "float", "float32":
			out[i] = float64(math.Float32frombits(order.Uint32(b)))
		case "double", "float64":
			out[i] = math.Float64frombits(order.Uint64(b))
		case "int", "int32":
			out[i] = float64(int32(order.Uint32(b)))
		case "unsigned_int", "uint32":
			out[i] = float64(order.Uint32(b))
		case "int64", "vtktypeint64", "long":
			out[i] = float64(int64(order.Uint64(b)))
		case "uint64":
			out[i] = float64(order.Uint64(b))
		case "unsigned_char", "uint8":
			out[i] = float64(b[0])
		}
	}
	return out, nil
}

func typeSize(kind string) int {
	switch kind {
	case "float", "float32", "int", "int32", "unsigned_int", "uint32":
		return 4
	case "double", "float64", "int64", "uint64", "vtktypeint64", "long":
		return 8
	case "unsigned_char", "uint8":
		return 1
	}
	return 0
}

// collect puts the arrays together.
func (v *vtpReader) collect() (polyData, error) {
	var d polyData
	xyz, ok := v.arrays["Points"]
	if !ok || len(xyz) == 0 {
		return d, fmt.Errorf("meshio: VTP: the file has no points")
	}
	if len(xyz)%3 != 0 || v.components["Points"] != 3 {
		return d, fmt.Errorf("meshio: VTP: Points has %d values in %d components: three per point are needed", len(xyz), v.components["Points"])
	}
	if len(xyz)/3 > MaxPoints {
		return d, fmt.Errorf("meshio: VTP: %d points, at most %d are read: thin the curve", len(xyz)/3, MaxPoints)
	}
	d.points = vectors(xyz)
	var err error
	if d.lines, err = cells(v.arrays["Lines connectivity"], v.arrays["Lines offsets"], false); err != nil {
		return d, fmt.Errorf("meshio: VTP: Lines: %w", err)
	}
	if d.polys, err = cells(v.arrays["Polys connectivity"], v.arrays["Polys offsets"], false); err != nil {
		return d, fmt.Errorf("meshio: VTP: Polys: %w", err)
	}
	if v.radiusName != "" && v.components["PointData"] == 1 {
		d.radii = v.arrays["PointData"]
	}
	return d, nil
}

func vectors(xyz []float64) []r3.Vec {
	out := make([]r3.Vec, len(xyz)/3)
	for i := range out {
		out[i] = r3.Vec{X: xyz[3*i], Y: xyz[3*i+1], Z: xyz[3*i+2]}
	}
	return out
}

// cells splits connectivity at the offsets; with leading the offsets begin with 0 (legacy VTK 5.1).
func cells(connectivity, offsets []float64, leading bool) ([][]int, error) {
	if leading {
		if len(offsets) == 0 || offsets[0] != 0 {
			return nil, fmt.Errorf("the offsets do not begin with 0")
		}
		offsets = offsets[1:]
	}
	out := make([][]int, 0, len(offsets))
	from := 0
	for i, o := range offsets {
		if !(o >= float64(from)) || o > float64(len(connectivity)) {
			return nil, fmt.Errorf("offset %d = %g does not lie between %d and %d", i+1, o, from, len(connectivity))
		}
		cell := make([]int, 0, int(o)-from)
		for _, c := range connectivity[from:int(o)] {
			if !(c >= 0 && c <= 1e9) {
				return nil, fmt.Errorf("point number %g is not valid", c)
			}
			cell = append(cell, int(c))
		}
		out = append(out, cell)
		from = int(o)
	}
	return out, nil
}

func attribute(t xml.StartElement, name string) string {
	for _, a := range t.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}
