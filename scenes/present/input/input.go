// Package input is what a person does, as plain data, so that a screen can be driven by a window, a page or a test.
//
// Positions are in logical pixels. A shell (package scenes) turns its own events into these.
package input

// Kind says what happened.
type Kind uint8

// The kinds of event.
const (
	Move    Kind = iota // the pointer moved to X, Y
	Press               // the pointer's button went down at X, Y
	Release             // the pointer's button went up at X, Y
	Wheel               // the wheel turned by DX, DY notches (away from the person is positive) at X, Y
	KeyDown             // Key went down (repeated while held: Repeat is set)
	KeyUp               // Key went up
	Text                // Rune was typed
	Resize              // the picture is now X by Y logical pixels
	Drop                // a file named Name with content Data was dropped or opened
	Leave               // the pointer left the picture
)

// Mods are the modifier keys held.
type Mods uint8

// The modifiers; Control includes the command key.
const (
	Shift Mods = 1 << iota
	Control
	Alt
)

// Key names a key that is not just its text. Letters and digits are their upper-case rune as a string ("Z", "1").
type Key string

// The named keys.
const (
	Tab       Key = "Tab"
	Enter     Key = "Enter"
	Space     Key = "Space"
	Escape    Key = "Escape"
	Left      Key = "Left"
	Right     Key = "Right"
	Up        Key = "Up"
	Down      Key = "Down"
	PageUp    Key = "PageUp"
	PageDown  Key = "PageDown"
	Home      Key = "Home"
	End       Key = "End"
	Backspace Key = "Backspace"
	Delete    Key = "Delete"
	F1        Key = "F1"
	F2        Key = "F2"
	F5        Key = "F5"
	F11       Key = "F11"
	Plus      Key = "+"
	Minus     Key = "-"
	Comma     Key = ","
	Period    Key = "."
	Slash     Key = "/"
	LeftSq    Key = "["
	RightSq   Key = "]"
)

// Event is one thing that happened.
type Event struct {
	Kind   Kind
	X, Y   float64
	DX, DY float64
	Button int // 0 left, 1 right, 2 middle
	Key    Key
	Rune   rune
	Mods   Mods
	Repeat bool
	Name   string
	Data   []byte
}
