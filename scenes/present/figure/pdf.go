package figure

import (
	"bytes"
	"fmt"
	"image/png"
	"io"
	"math"
	"strings"
	"time"

	fonts "annuloscope/assets/font"
	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/font"
	"annuloscope/scenes/present/raster"

	"codeberg.org/go-pdf/fpdf"
)

// Handout is what a one-page PDF holds, from top to bottom.
type Handout struct {
	Title, Subtitle string
	Pictures        []Picture // side by side, at most four
	Columns         []string  // headings of the table
	Rows            [][]string
	Sections        []Section
	Stamp           Stamp
	Mark            string // written large and pale across the page; empty: none

	painted [][]byte // the pictures as PNG
	widths  map[float64]bool
}

// Picture is a display list with a line below it.
type Picture struct {
	List    *draw.List
	Caption string
}

// Section is a paragraph with a heading, such as assumptions or sources.
type Section struct{ Heading, Text string }

// Page sizes in mm (A4 upright). Chosen.
const (
	pageW, pageH = 210.0, 297.0
	margin       = 15.0
	inner        = pageW - 2*margin
	mostPictureH = 80.0
	pictureScale = 2.0 // pixels per logical pixel
)

// PaintNext paints one picture of the handout ahead of PDF, so that a screen does not stand still; it tells whether one is
// left.
func (h *Handout) PaintNext() (more bool, err error) {
	i := len(h.painted)
	if i >= len(h.Pictures) {
		return false, nil
	}
	if h.widths == nil {
		h.widths = map[float64]bool{}
	}
	// fpdf (v0.12.0) writes images in the order of their widths and those of one width in any order: half a logical
	// pixel of background at the right keeps the bytes the same each time.
	l := *h.Pictures[i].List
	for l.Width = math.Round(l.Width); h.widths[l.Width]; l.Width += 1.0 / pictureScale {
	}
	h.widths[l.Width] = true
	painter := raster.Painter{Quality: raster.Still}
	var b bytes.Buffer
	if err := png.Encode(&b, painter.Paint(&l, pictureScale)); err != nil {
		return false, fmt.Errorf("figure: encoding a picture: %w", err)
	}
	h.painted = append(h.painted, b.Bytes())
	return len(h.painted) < len(h.Pictures), nil
}

// PDF writes the handout on one page. The type is 10 pt, smaller (down to 7 pt) if the page would not hold it; what
// still does not fit is an error that says by how much.
func PDF(w io.Writer, h *Handout) error {
	if err := h.Stamp.Validate(); err != nil {
		return err
	}
	if len(h.Pictures) > 4 {
		return fmt.Errorf("figure: a handout has %d pictures; at most 4 fit side by side", len(h.Pictures))
	}
	for i, r := range h.Rows {
		if len(r) != len(h.Columns) {
			return fmt.Errorf("figure: row %d of the handout has %d cells, its heading %d", i+1, len(r), len(h.Columns))
		}
	}
	for more := true; more; {
		var err error
		if more, err = h.PaintNext(); err != nil {
			return err
		}
	}
	left := 0.0
	for _, size := range []float64{10, 9, 8, 7} {
		p := newPage(size)
		p.write(h)
		if left = pageH - margin - 12 - p.y; left < 0 && p.pdf.Error() == nil {
			continue
		}
		p.foot(h.Stamp)
		if err := p.pdf.Output(w); err != nil {
			return fmt.Errorf("figure: writing the PDF: %w", err)
		}
		return nil
	}
	return fmt.Errorf("figure: the handout is %.0f mm too long for one page even at 7 pt; shorten its table or paragraphs", -left)
}

// page is a page being filled; y is how far down, mm.
type page struct {
	pdf  *fpdf.Fpdf
	size float64 // pt
	y    float64
}

func newPage(size float64) *page {
	pdf := fpdf.New("P", "mm", "A4", "")
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(margin, margin, margin)
	pdf.SetCatalogSort(true)
	// No clock: the same handout gives the same bytes.
	pdf.SetCreationDate(time.Unix(0, 0).UTC())
	pdf.SetModificationDate(time.Unix(0, 0).UTC())
	pdf.AddUTF8FontFromBytes("text", "", fonts.TextRegular)
	pdf.AddUTF8FontFromBytes("text", "B", fonts.TextBold)
	pdf.AddUTF8FontFromBytes("symbols", "", fonts.Symbols)
	pdf.AddPage()
	return &page{pdf: pdf, size: size, y: margin}
}

const mmPerPt = 25.4 / 72

// line writes one line of text at x and its own baseline, glyph runs by the font that holds them.
func (p *page) line(x, y float64, text string, size float64, bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	for _, r := range font.Runs(text, bold) {
		if r.Symbols {
			p.pdf.SetFont("symbols", "", size)
		} else {
			p.pdf.SetFont("text", style, size)
		}
		p.pdf.Text(x+r.Start*size*mmPerPt, y, r.Text)
	}
}

// paragraph writes wrapped text and moves down.
func (p *page) paragraph(text string, size float64, bold bool) {
	for _, part := range strings.Split(text, "\n") {
		for _, l := range wrapMM(part, size, inner, bold) {
			p.y += size * mmPerPt * 1.25
			p.line(margin, p.y, l, size, bold)
		}
	}
}

func wrapMM(text string, size, width float64, bold bool) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		next := strings.TrimSpace(line + " " + word)
		if line != "" && font.Width(next, size*mmPerPt, bold) > width {
			lines, line = append(lines, line), word
			continue
		}
		line = next
	}
	return append(lines, line)
}

func (p *page) write(h *Handout) {
	p.mark(h.Mark)
	p.pdf.SetTitle(h.Title, true)
	p.pdf.SetSubject(h.Stamp.Alt, true)
	p.pdf.SetCreator("Annuloscope "+h.Stamp.Version, true)
	var words []string
	for _, f := range h.Stamp.all() {
		words = append(words, f.Name+"="+f.Value)
	}
	p.pdf.SetKeywords(strings.Join(words, "; "), true)
	p.paragraph(h.Title, p.size*1.8, true)
	if h.Subtitle != "" {
		p.paragraph(h.Subtitle, p.size*1.1, false)
	}
	p.y += 3
	p.pictures(h.Pictures, h.painted)
	p.table(h.Columns, h.Rows)
	for _, s := range h.Sections {
		p.y += p.size * mmPerPt * 0.6
		p.paragraph(s.Heading, p.size, true)
		p.paragraph(s.Text, p.size, false)
	}
}

// mark writes a word large and pale across the page, under everything else.
func (p *page) mark(text string) {
	if text == "" {
		return
	}
	size := 60.0
	for font.Width(text, size*mmPerPt, true) > inner {
		size--
	}
	p.pdf.SetTextColor(215, 215, 215)
	for _, y := range []float64{pageH * 0.25, pageH * 0.5, pageH * 0.75} {
		p.line(margin+(inner-font.Width(text, size*mmPerPt, true))/2, y, text, size, true)
	}
	p.pdf.SetTextColor(0, 0, 0)
}

func (p *page) pictures(pics []Picture, painted [][]byte) {
	if len(pics) == 0 {
		return
	}
	const gap = 4.0
	wide := (inner - gap*float64(len(pics)-1)) / float64(len(pics))
	tall := 0.0
	for i, pic := range pics {
		w, h := wide, wide*pic.List.Height/pic.List.Width
		if h > mostPictureH {
			w, h = w*mostPictureH/h, mostPictureH
		}
		name := fmt.Sprintf("picture%d", i)
		p.pdf.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "PNG"}, bytes.NewReader(painted[i]))
		x := margin + float64(i)*(wide+gap)
		p.pdf.ImageOptions(name, x+(wide-w)/2, p.y, w, h, false, fpdf.ImageOptions{ImageType: "PNG"}, 0, "")
		y := p.y + h
		for _, l := range wrapMM(pic.Caption, p.size*0.9, wide, false) {
			y += p.size * 0.9 * mmPerPt * 1.25
			p.line(x, y, l, p.size*0.9, false)
		}
		tall = max(tall, y-p.y)
	}
	p.y += tall + 4
}

// table sets the first column to the left and the others to the right; cells are wrapped.
func (p *page) table(columns []string, rows [][]string) {
	if len(columns) == 0 {
		return
	}
	first := inner * 0.34
	if len(columns) == 1 {
		first = inner
	}
	other := (inner - first) / float64(max(len(columns)-1, 1))
	row := func(cells []string, bold bool) {
		most := 0
		for i, c := range cells {
			width := other
			if i == 0 {
				width = first
			}
			lines := wrapMM(c, p.size, width-2, bold)
			most = max(most, len(lines))
			for k, l := range lines {
				x := margin
				if i > 0 {
					x = margin + first + float64(i)*other - font.Width(l, p.size*mmPerPt, bold)
				}
				p.line(x, p.y+p.size*mmPerPt*1.25*float64(k+1), l, p.size, bold)
			}
		}
		p.y += p.size*mmPerPt*1.25*float64(most) + 0.8
		p.pdf.SetDrawColor(170, 170, 170)
		p.pdf.SetLineWidth(0.15)
		p.pdf.Line(margin, p.y, margin+inner, p.y)
	}
	row(columns, true)
	for _, r := range rows {
		row(r, false)
	}
	p.y += 2
}

// foot writes the caution and the provenance at the bottom.
func (p *page) foot(s Stamp) {
	y := pageH - margin - 6
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetLineWidth(0.3)
	p.pdf.Line(margin, y-4, margin+inner, y-4)
	p.line(margin, y, s.Caution, 9, true)
	p.line(margin, y+4, "case "+s.CaseHash+" · Annuloscope "+s.Version, 7, false)
}
