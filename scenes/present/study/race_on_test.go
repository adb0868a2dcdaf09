//go:build race

package study_test

const raceDetector = true
