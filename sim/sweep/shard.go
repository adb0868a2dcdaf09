package sweep

import (
	"fmt"
	"strconv"
	"strings"

	"annuloscope/sim/fault"
)

// Shard is part Number (from 1) of Of. It has every Of-th row, so that slow corners of a grid are shared out.
type Shard struct{ Number, Of int }

// Whole is the only shard of one.
func Whole() Shard { return Shard{1, 1} }

// ParseShard reads i/n, such as 2/8.
func ParseShard(text string) (Shard, error) {
	a, b, ok := strings.Cut(text, "/")
	i, err1 := strconv.Atoi(a)
	n, err2 := strconv.Atoi(b)
	if !ok || err1 != nil || err2 != nil || i < 1 || n < i || n > MaxRows {
		return Shard{}, &fault.Field{Path: "shard", Value: text, Problem: "not a shard", Allowed: fmt.Sprintf("i/n with i from 1 to n, n at most %d", MaxRows), Fix: "write for example 2/8"}
	}
	return Shard{i, n}, nil
}

// ArrayShard reads the shard from a scheduler's array variables (index, first index, count), as text. ok is false when
// there is no index.
func ArrayShard(index, first, count string) (s Shard, ok bool, err error) {
	if index == "" {
		return Shard{}, false, nil
	}
	if first == "" {
		first = "0"
	}
	i, err1 := strconv.Atoi(index)
	f, err2 := strconv.Atoi(first)
	n, err3 := strconv.Atoi(count)
	if err1 != nil || err2 != nil || err3 != nil || i < f || i-f >= n || n > MaxRows {
		return Shard{}, true, &fault.Field{Path: "shard", Value: fmt.Sprintf("index %s, first %s, count %s", index, first, count), Problem: "the array variables do not make a shard",
			Allowed: "an index from the first one on, fewer than count above it (an array in steps of 1)", Fix: "give --shard i/n"}
	}
	return Shard{i - f + 1, n}, true, nil
}

// Count is how many of rows the shard has.
func (s Shard) Count(rows int) int {
	if rows < s.Number {
		return 0
	}
	return (rows-s.Number)/s.Of + 1
}

// Row is the k-th row (from 0) of the shard.
func (s Shard) Row(k int) int { return s.Number - 1 + k*s.Of }
