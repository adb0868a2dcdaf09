// Package chart draws small charts into a display list: lines, loops, bars, scatter and histogram. Each series is named
// beside its line, not in a legend, and differs by dash as well as by colour. Ticks are round numbers; at most five.
package chart
