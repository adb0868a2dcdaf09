package casefile

import (
	"fmt"
	"strconv"

	"annuloscope/sim/fault"

	"go.yaml.in/yaml/v3"
)

// Version is the schema version that Encode writes; Decode reads all from oldest to it.
const (
	Version = 1
	oldest  = 0
)

// Version 0 are the drafts before the first release: the atrial pressure had another name, and the resistance of the body
// was stated where the circulation is now fitted to the mean arterial pressure.
var (
	renamed = [oldest + Version][]struct{ from, to string }{0: {{"heart.venous_mmhg", "heart.atrial_mean_mmhg"}}}
	dropped = [oldest + Version][]string{0: {"heart.systemic_resistance"}}
)

// migrate turns the tree of an older file into one of this version, in place: comments and everything else stay. A file
// without a version is left for the decoder to refuse.
func migrate(root *yaml.Node) error {
	v := find(root, "annuloscope")
	if v == nil {
		return nil
	}
	n, err := version(v)
	if err != nil {
		return err
	}
	if n == Version {
		return nil
	}
	for ; n < Version; n++ {
		for _, r := range renamed[n] {
			if len(matches(root, r.from)) > 0 && len(matches(root, r.to)) > 0 {
				at := matches(root, r.to)[0].node()
				return (&fault.Field{Path: r.to, Problem: "given by its name of today and as " + r.from + " of version " + strconv.Itoa(n),
					Allowed: "once", Fix: "remove one"}).At(at.Line, at.Column)
			}
			for _, m := range matches(root, r.from) {
				key := m.parent.Content[m.key]
				key.Value = lastOf(r.to, depth(key.Value))
			}
		}
		for _, path := range dropped[n] {
			for at := matches(root, path); len(at) > 0; at = matches(root, path) {
				at[0].parent.Content = without(at[0].parent.Content, at[0].key)
			}
		}
	}
	scalar(v, strconv.Itoa(Version), "!!int")
	return nil
}

// depth counts the parts of a key that is written with dots.
func depth(key string) int {
	n := 1
	for _, r := range key {
		if r == '.' {
			n++
		}
	}
	return n
}

// lastOf returns the last n parts of a path.
func lastOf(path string, n int) string {
	for i := len(path) - 1; i >= 0; i-- {
		if path[i] == '.' {
			if n--; n == 0 {
				return path[i+1:]
			}
		}
	}
	return path
}

// version reads the version of a file and refuses what this program cannot read.
func version(v *yaml.Node) (int, error) {
	n, err := strconv.Atoi(v.Value)
	f := &fault.Field{Path: "annuloscope", Value: v.Value, Problem: "not a version of case files", Allowed: fmt.Sprintf("%d to %d", oldest, Version),
		Fix: "write annuloscope: " + strconv.Itoa(Version)}
	switch {
	case v.Kind != yaml.ScalarNode || err != nil || n < oldest:
		return 0, f.At(v.Line, v.Column)
	case n > Version:
		f.Problem, f.Fix = "the file is of a newer version than this program reads", "use a newer program"
		return 0, f.At(v.Line, v.Column)
	}
	return n, nil
}
