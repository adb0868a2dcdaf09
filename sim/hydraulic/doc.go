// Package hydraulic is the orifice equation: leak from an orifice and a pressure difference, gradient from an
// opening and a flow. It is the instant tier; the closed-loop circulation (sim/beat) refines it.
//
// Units: mL, mmHg, s, cm², cm/s. Areas are effective (units.EffectiveCM2): the narrowest part of the jet.
//
// The law is Bernoulli without loss in the trade's rounding, v = 50·√Δp cm/s, which is Δp = 4v² with v in m/s
// (physics.md A1, B; the density 1060 kg/m³ gives 50.155, so areas differ by 0.3 %). Several holes side by side
// share one pressure difference, so only the sum of their effective areas counts, whatever the split (physics.md A1;
// measured for double-orifice valves within 5 %, A2, source S1).
//
// One contraction coefficient, Contraction = 0.8, turns an anatomic opening into an effective one. sim/closure uses
// the same 0.8 for the leak orifice: both are short, rounded, funnel-like passages between two leaflets, and there is
// no source that tells them apart. See constants.go for what the sources bracket.
//
// Left out: inertia and convective terms (a normal valve's true gradient is larger than 4v² says, physics.md B,
// S23), viscosity (0.03 of 4.9 mmHg, A1), and the change of flow that a changed gradient brings.
package hydraulic
