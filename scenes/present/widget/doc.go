// Package widget is the controls of the screens as plain data: it lays them out, draws them into a display list and
// turns events into actions, and it knows nothing of what they control.
//
// A screen describes all of its controls anew on each pass (Begin … End). The UI keeps between passes only what belongs
// to the person: focus, what is pressed, a number being typed, scroll offsets. Handle works on the controls of the last
// pass and returns actions; whoever owns the values applies them and asks for a new pass.
//
// Lengths handed in are logical pixels at 100 %; S scales them. Text is never cut: it wraps, and what does not fit its
// panel scrolls. Every control is reachable by Tab and has a name, a role and a value for a screen reader.
package widget
