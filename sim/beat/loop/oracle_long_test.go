//go:build long

package loop

import "testing"

func TestScipyRerunAll(t *testing.T) { rerunOracle(t) }
