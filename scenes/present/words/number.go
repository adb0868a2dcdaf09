package words

import (
	"bytes"
	"math"
	"strconv"
)

// mostKept: written numbers kept, so that a picture painted again writes none of them again; above that they are forgotten.
// Chosen: a screen holds some hundred.
const mostKept = 4000

// keep returns the text, from memory where it was written before.
func (w *Words) keep(b []byte) string {
	if s, ok := w.kept[string(b)]; ok {
		return s
	}
	if w.kept == nil || len(w.kept) >= mostKept {
		w.kept = map[string]string{}
	}
	s := string(b)
	w.kept[s] = s
	return s
}

// Num writes a number with so many decimals, a true minus and the language's decimal mark; NaN is a dash.
func (w *Words) Num(v float64, decimals int) string {
	var buf [64]byte
	return w.keep(w.number(buf[:0], v, decimals))
}

// number appends what Num writes.
func (w *Words) number(b []byte, v float64, decimals int) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(b, "–"...)
	}
	if v < 0 {
		b = append(b, "−"...)
	}
	from := len(b)
	b = strconv.AppendFloat(b, math.Abs(v), 'f', decimals, 64)
	zero := true
	for i := from; i < len(b); i++ {
		if b[i] >= '1' && b[i] <= '9' {
			zero = false
		}
		if b[i] == '.' && w.Lang == German {
			b[i] = ','
		}
	}
	if zero && v < 0 { // no minus before a zero
		b = append(b[:from-len("−")], b[from:]...)
	}
	return b
}

// Signed writes a number as Num does, with a plus where it is above zero at that precision.
func (w *Words) Signed(v float64, decimals int) string {
	var buf [64]byte
	b := append(buf[:0], "±"...)
	b = w.number(b, v, decimals)
	digits := b[len("±"):]
	some := bytes.ContainsAny(digits, "123456789")
	switch {
	case v > 0 && some:
		b = append(append(buf[:0], '+'), digits...)
	case v != 0 && (some || bytes.ContainsRune(digits, '–')):
		b = digits
	}
	return w.keep(b)
}

// With writes a number and its unit, joined by a no-break space.
func (w *Words) With(v float64, decimals int, unit string) string {
	var buf [64]byte
	b := w.number(buf[:0], v, decimals)
	if u := w.Unit(unit); u != "" && !(math.IsNaN(v) || math.IsInf(v, 0)) {
		b = append(append(b, "\u00a0"...), u...)
	}
	return w.keep(b)
}
