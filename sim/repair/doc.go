// Package repair is what may be done to a valve: the kinds of repair, each with its parameters, ranges and defaults in
// one table, and an ordered list of steps. What each step does to the physics is decided in sim/valve.
package repair
