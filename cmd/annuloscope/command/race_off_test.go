//go:build !race

package command_test

const raceDetector = false
