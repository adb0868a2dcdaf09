//go:build !linux

package scenes

// display has nothing to check in advance here: Run turns what Ebitengine reports into ErrNoDisplay.
func display() error { return nil }
