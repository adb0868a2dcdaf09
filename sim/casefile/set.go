package casefile

import (
	"fmt"
	"strconv"
	"strings"

	"annuloscope/sim/fault"
)

// Set puts a number at a path: a patient's parameter, or repair.N.key for the N-th repair (from 1).
func (c *Case) Set(path string, value float64) error {
	rest, ok := strings.CutPrefix(path, "repair.")
	if !ok {
		return c.Patient.Set(path, value)
	}
	number, key, _ := strings.Cut(rest, ".")
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > len(c.Repairs) {
		return &fault.Field{Path: path, Problem: "no such repair step", Allowed: fmt.Sprintf("repair.1 to repair.%d", len(c.Repairs)),
			Fix: "write repair.N.key, where N counts the repairs of the case from 1"}
	}
	return c.Repairs[n-1].Set(key, value)
}
