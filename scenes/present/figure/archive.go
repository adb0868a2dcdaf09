package figure

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/raster"
)

// Archive holds numbered PNG frames in one file (zip), with a text that says what they are, since a page can hand over
// one file only. The same frames give the same bytes. Use NewArchive.
type Archive struct {
	stamp   Stamp
	o       Options
	base    string
	digits  int
	n       int
	painter raster.Painter
	b       bytes.Buffer
	zip     *zip.Writer
}

// NewArchive begins an archive of total frames named base-0001.png and so on.
func NewArchive(base string, total int, s Stamp, o Options) (*Archive, error) {
	if _, err := o.scale(); err != nil {
		return nil, err
	}
	if err := s.Validate(); err != nil {
		return nil, err
	}
	a := &Archive{stamp: s, o: o, base: base, digits: max(4, len(fmt.Sprint(total)))}
	a.zip = zip.NewWriter(&a.b)
	return a, nil
}

// Add paints one more frame.
func (a *Archive) Add(l *draw.List) error {
	var b bytes.Buffer
	if err := pngWith(&a.painter, &b, l, a.stamp, a.o); err != nil {
		return err
	}
	a.n++
	return a.put(fmt.Sprintf("%s-%0*d.png", a.base, a.digits, a.n), b.Bytes(), zip.Store) // a PNG does not shrink
}

// put writes one file dated at the format's first day: no clock.
func (a *Archive) put(name string, data []byte, method uint16) error {
	w, err := a.zip.CreateHeader(&zip.FileHeader{Name: name, Method: method, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		return fmt.Errorf("figure: writing the archive: %w", err)
	}
	_, err = w.Write(data)
	return err
}

// Write adds the text and writes the finished archive.
func (a *Archive) Write(w io.Writer) error {
	if a.n == 0 {
		return fmt.Errorf("figure: an archive needs at least one frame")
	}
	if err := a.put("about.txt", []byte(About(a.stamp)), zip.Deflate); err != nil {
		return err
	}
	if err := a.zip.SetComment(a.stamp.Caution); err != nil {
		return fmt.Errorf("figure: writing the archive: %w", err)
	}
	if err := a.zip.Close(); err != nil {
		return fmt.Errorf("figure: writing the archive: %w", err)
	}
	_, err := w.Write(a.b.Bytes())
	return err
}

// About is the provenance as a text to lie beside files.
func About(s Stamp) string {
	var b strings.Builder
	for _, f := range s.all() {
		fmt.Fprintf(&b, "%s: %s\n", f.Name, f.Value)
	}
	return b.String()
}
