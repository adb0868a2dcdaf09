//go:build !unix && !js

package leaflet

import "time"

var began = time.Now()

// processorTime is the wall clock.
func processorTime() time.Duration { return time.Since(began) }
