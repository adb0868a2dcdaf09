package svg

import (
	"bufio"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image/png"
	"io"
	"math"
	"strconv"
	"strings"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/font"
	"annuloscope/scenes/present/raster"
)

// Field is one line of provenance.
type Field struct{ Name, Value string }

// About says what a picture is, for its title, description and metadata elements.
type About struct {
	Title       string
	Description string // also the alternative text
	Fields      []Field
}

// sceneScale is how many pixels a logical pixel of an embedded scene has. Chosen: sharp when enlarged twice.
const sceneScale = 2

const families = "Liberation Sans, Arial, Helvetica, DejaVu Sans, sans-serif"

// Write writes the list. Errors are those of w.
func Write(w io.Writer, l *draw.List, about About) error {
	p := &painter{w: bufio.NewWriter(w)}
	title := about.Title
	if title == "" {
		title = l.Title
	}
	p.printf(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="%s" height="%s" viewBox="0 0 %s %s" role="img" aria-labelledby="title desc">`+"\n",
		num(l.Width), num(l.Height), num(l.Width), num(l.Height))
	p.printf("<title id=\"title\">%s</title>\n<desc id=\"desc\">%s</desc>\n<metadata>\n", escape(title), escape(about.Description))
	p.printf(`<provenance xmlns="urn:annuloscope:provenance">` + "\n")
	for _, f := range about.Fields {
		p.printf("<field name=\"%s\">%s</field>\n", escape(f.Name), escape(f.Value))
	}
	p.printf("</provenance>\n</metadata>\n")
	if l.Background.A > 0 {
		p.printf("<rect x=\"0\" y=\"0\" width=\"%s\" height=\"%s\"%s/>\n", num(l.Width), num(l.Height), paint("fill", l.Background))
	}
	for i := range l.Ops {
		p.op(&l.Ops[i])
	}
	for ; p.open > 0; p.open-- {
		p.printf("</g>\n")
	}
	p.printf("</svg>\n")
	if p.err != nil {
		return p.err
	}
	return p.w.Flush()
}

type painter struct {
	w           *bufio.Writer
	err         error
	clips, open int
	pixels      *raster.Painter
}

func (p *painter) printf(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, args...)
	}
}

func (p *painter) op(o *draw.Op) {
	switch o.Kind {
	case draw.KindFill:
		if len(o.Points) > 2 && finite(o.Points) && o.Color.A > 0 {
			p.printf("<path d=\"%s\"%s/>\n", path(o.Points, true), paint("fill", o.Color))
		}
	case draw.KindStroke:
		p.stroke(o)
	case draw.KindText:
		p.text(o)
	case draw.KindScene:
		p.scene(o)
	case draw.KindPushClip:
		p.clips++
		p.open++
		p.printf("<clipPath id=\"clip%d\"><rect x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"/></clipPath>\n<g clip-path=\"url(#clip%d)\">\n",
			p.clips, num(o.Rect.X), num(o.Rect.Y), num(math.Max(0, o.Rect.W)), num(math.Max(0, o.Rect.H)), p.clips)
	case draw.KindPopClip:
		if p.open > 0 {
			p.open--
			p.printf("</g>\n")
		}
	}
}

func (p *painter) stroke(o *draw.Op) {
	if len(o.Points) < 2 || !finite(o.Points) || o.Color.A == 0 || !(o.Width > 0) {
		return
	}
	dash := ""
	if o.Dash[0] > 0 && o.Dash[1] > 0 {
		dash = fmt.Sprintf(` stroke-dasharray="%s %s"`, num(o.Dash[0]), num(o.Dash[1]))
	}
	p.printf("<path d=\"%s\" fill=\"none\"%s stroke-width=\"%s\" stroke-linejoin=\"round\"%s/>\n",
		path(o.Points, o.Closed), paint("stroke", o.Color), num(o.Width), dash)
}

func (p *painter) text(o *draw.Op) {
	if len(o.Points) == 0 || !finite(o.Points[:1]) || !(o.Size > 0) || strings.TrimSpace(o.Text) == "" || o.Color.A == 0 {
		return
	}
	width := font.Width(o.Text, o.Size, o.Bold)
	x := o.Points[0].X
	switch o.Anchor {
	case draw.Middle:
		x -= width / 2
	case draw.End:
		x -= width
	}
	weight := ""
	if o.Bold {
		weight = ` font-weight="bold"`
	}
	p.printf("<text x=\"%s\" y=\"%s\" font-family=\"%s\" font-size=\"%s\"%s%s textLength=\"%s\" lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">%s</text>\n",
		num(x), num(o.Points[0].Y), families, num(o.Size), weight, paint("fill", o.Color), num(width), escape(o.Text))
}

// scene embeds a painted scene.
func (p *painter) scene(o *draw.Op) {
	if o.Scene == nil || !(o.Rect.W > 0 && o.Rect.H > 0) || p.err != nil {
		return
	}
	if p.pixels == nil {
		p.pixels = &raster.Painter{Quality: raster.Still}
	}
	var l draw.List
	l.Reset(math.Ceil(o.Rect.W), math.Ceil(o.Rect.H), draw.Color{})
	l.Solid(draw.Rect{W: o.Rect.W, H: o.Rect.H}, o.Camera, o.Scene)
	p.printf("<!-- The three-dimensional picture that follows is pixels (PNG), not vectors. -->\n"+
		`<image x="%s" y="%s" width="%s" height="%s" xlink:href="data:image/png;base64,`,
		num(o.Rect.X), num(o.Rect.Y), num(l.Width), num(l.Height))
	if p.err != nil {
		return
	}
	code := base64.NewEncoder(base64.StdEncoding, p.w)
	if p.err = png.Encode(code, p.pixels.Paint(&l, sceneScale)); p.err == nil {
		p.err = code.Close()
	}
	p.printf("\"/>\n")
}

func path(pts []draw.Point, closed bool) string {
	var b strings.Builder
	for i, q := range pts {
		b.WriteByte("ML"[min(i, 1)])
		b.WriteString(num(q.X))
		b.WriteByte(' ')
		b.WriteString(num(q.Y))
	}
	if closed {
		b.WriteByte('Z')
	}
	return b.String()
}

// paint writes a colour and, if needed, its opacity, for "fill" or "stroke".
func paint(what string, c draw.Color) string {
	s := fmt.Sprintf(` %s="#%02x%02x%02x"`, what, c.R, c.G, c.B)
	if c.A != 255 {
		s += fmt.Sprintf(` %s-opacity="%s"`, what, strconv.FormatFloat(float64(c.A)/255, 'f', 4, 64))
	}
	return s
}

// num writes a length to 1/1000 of a logical pixel.
func num(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000+0, 'f', -1, 64)
}

func finite(pts []draw.Point) bool {
	for _, q := range pts {
		if !(math.Abs(q.X) < 1e9 && math.Abs(q.Y) < 1e9) {
			return false
		}
	}
	return true
}

// escape makes text safe inside an element or attribute; characters that XML forbids become the replacement mark.
func escape(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		panic("svg: " + err.Error()) // a strings.Builder never fails
	}
	return b.String()
}
