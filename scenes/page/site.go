//go:build !js

package page

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"mime"
	"path"

	assets "annuloscope/assets/page"
)

// file is one file of a Site: its content packed by gzip, and unpacked where that is small.
type file struct {
	kind   string
	tag    string // entity tag
	packed []byte
	plain  []byte // nil for the program, which is unpacked only for a client that cannot
}

// Site is what is served. It is read only and safe for concurrent use.
type Site struct{ files map[string]file }

// MostBytes is how large the page may be on its way to a browser, compressed (issue 7: 6 MB).
const MostBytes = 6_000_000

// Size returns the bytes of all files as they go over the wire to a browser.
func (s *Site) Size() int {
	n := 0
	for _, f := range s.files {
		n += len(f.packed)
	}
	return n
}

// kinds by extension; the system's own table may differ from machine to machine.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
	".svg": "image/svg+xml", ".wasm": "application/wasm",
}

// newSite puts the shell round the program (packed by gzip) and Go's loader for it.
func newSite(program, loader []byte) (*Site, error) {
	s := &Site{files: map[string]file{}}
	list, err := fs.ReadDir(assets.Shell, ".")
	if err != nil {
		return nil, err
	}
	for _, e := range list {
		data, err := fs.ReadFile(assets.Shell, e.Name())
		if err != nil {
			return nil, err
		}
		s.add(e.Name(), data)
	}
	s.add("wasm_exec.js", loader)
	s.files["/annuloscope.wasm"] = file{kind: kinds[".wasm"], tag: tag(program), packed: program}
	s.files["/"] = s.files["/index.html"]
	return s, nil
}

func (s *Site) add(name string, data []byte) {
	kind := kinds[path.Ext(name)]
	if kind == "" {
		kind = mime.TypeByExtension(path.Ext(name))
	}
	s.files["/"+name] = file{kind: kind, tag: tag(data), packed: pack(data), plain: data}
}

func tag(data []byte) string {
	sum := sha256.Sum256(data)
	return `"` + hex.EncodeToString(sum[:12]) + `"`
}

func pack(data []byte) []byte {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err == nil {
		if _, err = w.Write(data); err == nil {
			err = w.Close()
		}
	}
	if err != nil {
		panic("page: " + err.Error()) // a bytes.Buffer never fails
	}
	return b.Bytes()
}

// Embedded returns the page that a release carries; ok is false where there is none.
func Embedded() (s *Site, ok bool, err error) {
	if !assets.HasBuilt {
		return nil, false, nil
	}
	program, err := fs.ReadFile(assets.Built, "built/annuloscope.wasm.gz")
	if err != nil {
		return nil, false, fmt.Errorf("the embedded page is damaged: %w", err)
	}
	loader, err := fs.ReadFile(assets.Built, "built/wasm_exec.js")
	if err != nil {
		return nil, false, fmt.Errorf("the embedded page is damaged: %w", err)
	}
	s, err = newSite(program, loader)
	return s, err == nil, err
}
