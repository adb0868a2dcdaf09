package present

import "annuloscope/scenes/present/draw"

// Role says what a control is, in the words of the page's own elements.
type Role string

// The roles.
const (
	Button   Role = "button"
	Slider   Role = "slider"
	Checkbox Role = "checkbox"
	Choice   Role = "radiogroup" // one of Options
	Entry    Role = "entry"      // a line of text
	Reading  Role = "text"       // only to be read: Text
	Image    Role = "img"        // a picture: Text says what it shows
)

// Control is a control told in words, for a page's HTML side, a screen reader or a test.
type Control struct {
	ID       string // stays the same for the same control; unique on the screen
	Name     string // as shown to the person
	Role     Role
	Group    string // heading under which it stands; may be empty
	Value    float64
	Min, Max float64
	Step     float64
	Unit     string
	Text     string   // the value in words; Choice: the option chosen; Entry: what stands in it
	Options  []string // Choice
	On       bool     // Checkbox: checked; Button: pressed, where it can stay so
	Disabled bool
	Hint     string    // what it does; may be empty
	Rect     draw.Rect // where it can be pressed on the picture, logical pixels
}

// Spoken is a Screen that can also be met without looking. A shell calls Controls, Announcement and Description only
// after Tick told of a change.
type Spoken interface {
	// Controls lists the controls in tab order.
	Controls() []Control
	// Act works a control: a Button is pressed (value ignored), a Slider set to a number, a Checkbox to "true" or
	// "false", a Choice to one of its options, an Entry to a text. An unknown id or a bad value is an error that says
	// what is allowed.
	Act(id, value string) error
	// Announcement is what changed last and why, for a live region: it is read out whenever it differs.
	Announcement() string
	// Description is the picture told in words, its alternative text.
	Description() string
}

// Opener is a Screen that a link can bring into a state.
type Opener interface {
	// Open takes an address's fragment (without '#') and its query (without '?'), both still encoded. What it does
	// not understand it says on the screen; it never fails.
	Open(fragment, query string)
}

// WishKind says what a screen asks of its shell.
type WishKind uint8

// The kinds of wish.
const (
	SaveFile   WishKind = iota // keep Data as a file named Name: a download in the page, a file in the window's folder
	CopyText                   // put Text on the clipboard
	SetAddress                 // make Text the fragment of the page's address; nothing in the window
	FullScreen                 // change between full screen and window
	OpenFile                   // let the person choose a file, which arrives as input.Drop
	Quit                       // close the window; nothing in the page
)

// Wish is something that only the shell can do. Done, if set, is called once on the screen's own goroutine with where
// it went (a file's path; empty otherwise) or why it could not be done.
type Wish struct {
	Kind WishKind
	Name string
	Text string
	Data []byte
	Done func(where string, err error)
}

// Wisher is a Screen that asks things of its shell.
type Wisher interface {
	// Wishes hands over the wishes since the last call. A shell calls it after each Tick.
	Wishes() []Wish
}

// Inspected is a Screen that shows its state to tests and to the bench command.
type Inspected interface {
	// Inspect returns a value that encodes as JSON.
	Inspect() any
}
