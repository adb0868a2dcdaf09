//go:build unix

package leaflet

import (
	"syscall"
	"time"
)

// processorTime is the user time of this process.
func processorTime() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano())
}
