// Package lectern is the scene for lecturing: a running order of prepared states, shown one after the other in large
// type, each with a question, a number hidden until a key, and notes for the presenter.
package lectern
