//go:build !long

package orifice_test

// randomCases is the number of random inputs of the property tests; -tags long raises it.
const randomCases = 2000
