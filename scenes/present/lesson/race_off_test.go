//go:build !race

package lesson_test

// raced tells that the race detector is on.
const raced = false
