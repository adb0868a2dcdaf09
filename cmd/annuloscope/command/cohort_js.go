package command

import "annuloscope/scenes/present/study"

// manyPatients is nil in the page's one thread: the scene solves a patient now and then between two pictures.
func manyPatients() study.Runner { return nil }
