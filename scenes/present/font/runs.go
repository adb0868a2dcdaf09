package font

// Run is a part of a text that one source font holds, for painters that set text themselves.
type Run struct {
	Text    string
	Start   float64 // ems from the start of the text
	Symbols bool    // the symbol font holds it, else the text font
}

// Runs cuts a text where the source font changes or a pair is kerned, so that each run starts where Walk has it.
func Runs(text string, bold bool) []Run {
	var out []Run
	it := Walk(text, bold)
	from, pen := 0, 0.0
	for it.Next() {
		g, start := it.Glyph()
		if symbols := g.Source == Symbols; len(out) == 0 || out[len(out)-1].Symbols != symbols || start != pen {
			out = append(out, Run{Start: start, Symbols: symbols})
		}
		out[len(out)-1].Text += text[from:it.Offset()]
		from, pen = it.Offset(), it.Pen()
	}
	return out
}
