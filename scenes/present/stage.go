package present

// Pending is a Screen whose answer to an input may come after the first picture.
type Pending interface {
	// Pending tells whether an answer to input is still being computed, so that the shell measures the time to it.
	Pending() bool
}

// Stage is how much of the answer to the last input there is; each stage holds what those before it hold.
type Stage uint8

// The stages.
const (
	Asked    Stage = iota // nothing yet
	Geometry              // the shape: ring, leaflets, opening, artery
	Numbers               // every number is final
	Causes                // and where they come from: all there is, unless more is asked for
	Settled               // and the leaflets have settled in three dimensions, where that is asked for
)

// Staged is a Pending Screen whose answer comes in stages.
type Staged interface {
	// Stage tells how much of the answer the next picture shows.
	Stage() Stage
}
