//go:build long

package artery_test

// randomCases is the number of random inputs of the property tests.
const randomCases = 100000
