package leaflet

import (
	"testing"
	"time"
)

// reportCPU adds the processor time of one operation to a benchmark: on a shared machine the wall clock says little.
// Where the system does not tell it, it is the wall clock.
func reportCPU(b *testing.B, n int, from time.Duration) {
	b.ReportMetric(float64((processorTime()-from).Microseconds())/1000/float64(n), "cpu-ms/op")
}
