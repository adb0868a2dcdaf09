//go:build long

package command

const slowToo = true
