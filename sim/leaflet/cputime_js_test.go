package leaflet

import (
	"syscall/js"
	"time"
)

// processorTime is the user time of the process that runs the page's machine (Node).
func processorTime() time.Duration {
	u := js.Global().Get("process").Call("cpuUsage")
	return time.Duration(u.Get("user").Int()) * time.Microsecond
}
