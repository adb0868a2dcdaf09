//go:build race

package valve_test

const raceDetector = true
