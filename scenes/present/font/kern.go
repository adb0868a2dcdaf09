package font

import (
	"encoding/binary"
	"unicode/utf8"
)

// decode reads one rune; bytes that are no UTF-8 come out as the replacement mark, one by one.
func decode(s string) (rune, int) {
	if s[0] < utf8.RuneSelf {
		return rune(s[0]), 1
	}
	return utf8.DecodeRuneInString(s)
}

// kernPairs reads the pair kerning of a TrueType file: table "kern", version 0, format 0 (OpenType specification,
// "kern - Kerning"), in ems by left<<16 | right. A file without such a table has no pairs.
func kernPairs(file []byte, unitsPerEm int) map[uint32]float32 {
	u16 := func(at int) int { return int(binary.BigEndian.Uint16(file[at:])) }
	pairs := map[uint32]float32{}
	for i := range u16(4) {
		entry := 12 + 16*i
		if string(file[entry:entry+4]) != "kern" {
			continue
		}
		at := int(binary.BigEndian.Uint32(file[entry+8:]))
		if u16(at) != 0 || u16(at+2) < 1 || u16(at+8)>>8 != 0 {
			return pairs
		}
		n := u16(at + 10)
		for k := range n {
			p := at + 18 + 6*k
			pairs[binary.BigEndian.Uint32(file[p:])] = float32(int16(u16(p+4))) / float32(unitsPerEm)
		}
	}
	return pairs
}
