//go:build !long

package command

const slowToo = false
