// Package beatview is the scene "beat": the valve large, moving with the waves of the circulation; pressures, flows and
// loops beside it, before and after; scrub, slow, pause. Before the circulation has been computed it says so.
package beatview
