package command

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
)

// `annuloscope open FILE` takes what the program shares: here without a display, in words.
func TestSharedFilesOpen(t *testing.T) {
	dir := "../../../scenes/present/program/testdata/share"
	for _, file := range []string{"v1-band.json", "v1-band.link"} {
		name := filepath.Join(dir, file)
		var o, e bytes.Buffer
		if code := Run([]string{"open", name, "--words"}, Streams{Out: &o, Err: &e}); code != Done {
			t.Fatalf("%s: code %d, %s", file, code, e.String())
		}
		if !strings.Contains(o.String(), "Invented functional leak") || !strings.Contains(o.String(), "Shortening reached") {
			t.Errorf("%s: %s", file, o.String())
		}
		p, err := (&openCmd{Case: name}).program(&Streams{Out: &o, Err: &e})
		if err != nil {
			t.Fatal(err)
		}
		doc := p.Document()
		if doc.Scene != "strip" || len(doc.Open.Repairs) != 1 || doc.Open.Repairs[0].Value("shortening_mm") != 20 {
			t.Errorf("%s opens to %+v", file, doc)
		}
	}
	var o, e bytes.Buffer
	if code := Run([]string{"open", filepath.Join(dir, "none.json"), "--words"}, Streams{Out: &o, Err: &e}); code != BadCase || o.Len() > 0 {
		t.Errorf("a file that is not there: code %d, %s", code, e.String())
	}
}
