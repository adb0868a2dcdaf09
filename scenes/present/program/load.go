package program

import (
	"fmt"

	"annuloscope/sim/casefile"
)

func decodeCase(data []byte) (casefile.Case, error) { return casefile.Decode(data) }

// ReadCases decodes the built-in cases with a reader of their files, in the order given.
func ReadCases(names []string, read func(name string) ([]byte, error)) ([]casefile.Case, error) {
	var out []casefile.Case
	for _, n := range names {
		data, err := read(n)
		if err != nil {
			return nil, fmt.Errorf("program: built-in case %s: %w", n, err)
		}
		c, err := casefile.Decode(data)
		if err != nil {
			return nil, fmt.Errorf("program: built-in case %s: %w", n, err)
		}
		out = append(out, c)
	}
	return out, nil
}
