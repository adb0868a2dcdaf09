package theme

// Type sizes and spacing in logical pixels at 100 %.
const (
	Grid    = 8.0
	Small   = 12.0 // captions, units, ticks
	Body    = 14.0 // labels, table
	Lead    = 17.0 // the sentence on top
	Title   = 20.0 // page headings
	Target  = 24.0 // least size of anything one can press (WCAG 2.5.8)
	Primary = 44.0 // primary targets
	Leading = 1.32 // line height over type size
)
