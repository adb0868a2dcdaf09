// Package valve solves a case: it maps a patient and the repairs to the physics packages, runs them to a fixed point
// and fills one Report.
//
// The state before treatment is the patient alone; the state after has every repair in order. Ring and closure are
// coupled both ways: the ring gives the annulus, the clips pull back on it; closure and circulation likewise: the
// circulation gives the pressure that closes the valve and takes the leak and the opening. Solve repeats each round
// until it balances within ToleranceN and the pressure tolerance, and the Report says how many rounds it took and
// whether it got there.
//
// A Solver keeps the fitted baseline of the last patient and warm starts; the zero-history answer (NewSolver for each
// case) is the reference and the same input gives the same bytes. A Solver is not safe for use by two goroutines.
//
// # Names and units
//
// Paths of numbers (annulus.septal_lateral_mm, repair.1.shortening_mm) and of results (Quantities) are stable: they are
// the keys of case files, JSON, CSV columns and sweeps, and change only with the schema's version. Every name ends in its
// unit: _mm, _n (newton), _n_per_mm, _ml, _mmhg, _cm2 (with anatomic or effective in the name and in the Go type), _pct,
// _deg; a share or ratio has none. Go fields carry the same unit in their name.
package valve
