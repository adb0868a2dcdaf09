package page

// NewSiteForTest makes a site round a program that is only bytes.
func NewSiteForTest(program, loader []byte) (*Site, error) { return newSite(pack(program), loader) }
