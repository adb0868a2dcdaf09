package draw

import "image/color"

// Point is a place in logical pixels.
type Point struct{ X, Y float64 }

// Rect is a rectangle in logical pixels.
type Rect struct{ X, Y, W, H float64 }

// Contains tells whether p lies in the rectangle (right and bottom edges excluded).
func (r Rect) Contains(p Point) bool {
	return p.X >= r.X && p.X < r.X+r.W && p.Y >= r.Y && p.Y < r.Y+r.H
}

// Inset returns the rectangle made smaller by d on every side.
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Color is a colour with straight (not multiplied) alpha.
type Color = color.NRGBA

// Kind says what an Op does.
type Kind uint8

// The kinds of operation.
const (
	KindFill     Kind = iota // fill the polygon Points
	KindStroke               // stroke the polyline Points with Width
	KindText                 // write Text at Points[0]
	KindScene                // paint Scene through Camera into Rect
	KindPushClip             // restrict what follows to Rect
	KindPopClip              // undo the last KindPushClip
)

// Anchor says which point of a text lies at its position, horizontally; vertically the position is the baseline.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Op is one operation. Which fields count depends on Kind.
type Op struct {
	Kind   Kind
	Points []Point
	Closed bool // KindStroke: join the last point to the first
	Color  Color
	Width  float64    // KindStroke: line width
	Dash   [2]float64 // KindStroke: length on and off; zero means solid
	Rect   Rect
	Text   string
	Size   float64 // KindText: font size
	Bold   bool
	Anchor Anchor
	Camera Camera
	Scene  *Scene
}

// List is a display list. The zero value is empty and ready.
type List struct {
	Width, Height float64
	Background    Color
	Title         string // for the figure's alternative text
	Ops           []Op
	points        []Point
}

// Reset empties the list, keeps its memory and sets its size and background.
func (l *List) Reset(w, h float64, background Color) {
	l.Width, l.Height, l.Background = w, h, background
	l.Ops = l.Ops[:0]
	l.points = l.points[:0]
}

func (l *List) keep(pts []Point) []Point {
	n := len(l.points)
	l.points = append(l.points, pts...)
	return l.points[n:len(l.points):len(l.points)]
}

// Fill fills a polygon (non-zero winding).
func (l *List) Fill(c Color, pts ...Point) {
	l.Ops = append(l.Ops, Op{Kind: KindFill, Points: l.keep(pts), Color: c})
}

// FillRect fills a rectangle.
func (l *List) FillRect(r Rect, c Color) {
	l.Fill(c, Point{r.X, r.Y}, Point{r.X + r.W, r.Y}, Point{r.X + r.W, r.Y + r.H}, Point{r.X, r.Y + r.H})
}

// StrokeRect strokes the inside edge of a rectangle.
func (l *List) StrokeRect(r Rect, width float64, c Color) {
	r = r.Inset(width / 2)
	l.Ops = append(l.Ops, Op{Kind: KindStroke, Closed: true, Color: c, Width: width, Points: l.keep([]Point{
		{r.X, r.Y}, {r.X + r.W, r.Y}, {r.X + r.W, r.Y + r.H}, {r.X, r.Y + r.H}})})
}

// Line strokes an open polyline with round joins.
func (l *List) Line(c Color, width float64, pts ...Point) {
	l.Ops = append(l.Ops, Op{Kind: KindStroke, Points: l.keep(pts), Color: c, Width: width})
}

// Dashed strokes an open polyline with a dash pattern.
func (l *List) Dashed(c Color, width, on, off float64, pts ...Point) {
	l.Ops = append(l.Ops, Op{Kind: KindStroke, Points: l.keep(pts), Color: c, Width: width, Dash: [2]float64{on, off}})
}

// Loop strokes a closed polyline.
func (l *List) Loop(c Color, width float64, pts ...Point) {
	l.Ops = append(l.Ops, Op{Kind: KindStroke, Closed: true, Points: l.keep(pts), Color: c, Width: width})
}

// Text writes one line of text with its baseline at y.
func (l *List) Text(s string, x, y, size float64, bold bool, a Anchor, c Color) {
	l.Ops = append(l.Ops, Op{Kind: KindText, Points: l.keep([]Point{{x, y}}), Text: s, Size: size, Bold: bold, Anchor: a, Color: c})
}

// PushClip restricts what follows to r, within any clip already in force.
func (l *List) PushClip(r Rect) { l.Ops = append(l.Ops, Op{Kind: KindPushClip, Rect: r}) }

// PopClip ends the last PushClip.
func (l *List) PopClip() { l.Ops = append(l.Ops, Op{Kind: KindPopClip}) }

// Solid paints a three-dimensional scene into r. The scene must not change until the list is painted; change its
// Version when its content changes, so that a painter may keep the picture of an unchanged scene.
func (l *List) Solid(r Rect, cam Camera, s *Scene) {
	l.Ops = append(l.Ops, Op{Kind: KindScene, Rect: r, Camera: cam, Scene: s})
}
