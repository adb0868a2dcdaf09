//go:build long

package beat

import "testing"

func TestRandomParametersLong(t *testing.T) { randomParameters(t, 10000) }
