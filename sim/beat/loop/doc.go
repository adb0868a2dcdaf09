// Package loop integrates a closed ring of elastic compartments joined by pipes and valves over one heart beat and
// finds its periodic state. It knows nothing of hearts; package beat fills it in.
//
// Units: mL, mmHg, s. Compartment i empties through link i into compartment i+1 (the last into the first). In
//
//	p = P0 + (f·Emax + (1−f)·Emin)·(V−V0) + (1−f)·ExpA·(exp(ExpB·(V−V0))−1)
//	L·dq/dt + R·q + q²/K² = p(i) − p(i+1)
//
// f(t) is the activation of the compartment, sampled beforehand.
//
// Integrator: the two-stage, second-order, L-stable, stiffly accurate diagonally implicit Runge-Kutta method with
// γ = 1−1/√2 (Alexander 1977, from memory) at a fixed number of steps per beat. An orifice without inertance is
// infinitely stiff where its pressure difference vanishes; an L-stable method needs no smoothing there. Valves are
// complementarity conditions inside each stage (q ≥ 0, or a reverse flow through the leak), so no event search is
// needed: the flow stays continuous at opening and closing, and the method keeps its order (grid study in the tests).
//
// In each stage the link flows are eliminated in closed form. What remains is one symmetric positive definite
// cyclic-tridiagonal system in the pressures, solved in O(n). The same factors carry the derivatives of the state, so
// one pass over the beat also yields the exact derivative (monodromy) of the discrete beat map for Newton's method.
package loop
