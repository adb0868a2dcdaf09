//go:build race

package program_test

const raceDetector = true
