// Package verify runs the program's own packages against answers from outside and shows the difference.
//
// Three kinds of comparison are kept apart: exact checks (closed forms, identities and independently computed numbers;
// a miss is a FAIL), grid studies (three grids, observed order, Richardson limit and grid convergence index), and
// published, secondary or remembered values, where a miss is a GAP that is shown and never tuned away.
//
// Every row calls the code under test; the expected value is a number of the source. Sources "physics.md", "anatomy.md"
// and "users.md" name the sheets of ../shared/reference; S keys are their source lists. Run is deterministic.
package verify
