//go:build race

package lesson_test

// raced tells that the race detector is on: solving is then several times slower.
const raced = true
