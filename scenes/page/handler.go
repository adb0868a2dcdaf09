//go:build !js

package page

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strconv"
	"strings"
)

// Frames says which pages may show this one in a frame.
type Frames struct{ ancestors string }

// ParseFrames reads a frame policy: "none" (also the empty string), "self", "any", or origins such as
// https://example.org separated by spaces or commas.
func ParseFrames(s string) (Frames, error) {
	switch s {
	case "", "none":
		return Frames{"'none'"}, nil
	case "self":
		return Frames{"'self'"}, nil
	case "any":
		return Frames{"*"}, nil
	}
	var out []string
	for _, f := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' }) {
		u, err := url.Parse(f)
		if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.Path != "" || u.RawQuery != "" ||
			u.Fragment != "" || u.User != nil || strings.ContainsAny(f, ";'\"*") {
			return Frames{}, fmt.Errorf("frame policy %q: allowed are none, self, any, or origins like https://example.org", f)
		}
		out = append(out, f)
	}
	if len(out) == 0 {
		return Frames{}, fmt.Errorf("frame policy %q names no origin; allowed are none, self, any, or origins like https://example.org", s)
	}
	return Frames{strings.Join(out, " ")}, nil
}

// Handler answers GET and HEAD for the files of the site and nothing else.
func Handler(s *Site, frames Frames) http.Handler {
	if frames.ancestors == "" {
		frames.ancestors = "'none'"
	}
	policy := "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
		"base-uri 'none'; form-action 'none'; frame-ancestors " + frames.ancestors
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=()")
		if frames.ancestors == "'none'" {
			h.Set("X-Frame-Options", "DENY")
			h.Set("Cross-Origin-Resource-Policy", "same-origin")
		}
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			h.Set("Allow", "GET, HEAD")
			http.Error(w, "only GET and HEAD are answered", http.StatusMethodNotAllowed)
			return
		}
		f, ok := s.files[r.URL.Path]
		if !ok {
			http.Error(w, "no such file", http.StatusNotFound)
			return
		}
		f.serve(w, r)
	})
}

func (f file) serve(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", "no-cache") // ask again each time; the tag makes that cheap
	h.Set("ETag", f.tag)
	h.Set("Vary", "Accept-Encoding")
	if r.Header.Get("If-None-Match") == f.tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	if takesGzip(r.Header.Get("Accept-Encoding")) {
		h.Set("Content-Encoding", "gzip")
		h.Set("Content-Length", strconv.Itoa(len(f.packed)))
		send(w, r, bytes.NewReader(f.packed))
		return
	}
	if f.plain != nil {
		h.Set("Content-Length", strconv.Itoa(len(f.plain)))
		send(w, r, bytes.NewReader(f.plain))
		return
	}
	z, err := gzip.NewReader(bytes.NewReader(f.packed))
	if err != nil {
		http.Error(w, "the page is damaged", http.StatusInternalServerError)
		return
	}
	send(w, r, z)
}

func send(w http.ResponseWriter, r *http.Request, from io.Reader) {
	if r.Method == http.MethodHead {
		return
	}
	// An error here means that the client has gone; there is nobody to tell.
	io.Copy(w, from)
}

// takesGzip reads an Accept-Encoding header (RFC 9110, section 12.5.3).
func takesGzip(accept string) bool {
	for _, part := range strings.Split(accept, ",") {
		name, quality, _ := strings.Cut(strings.TrimSpace(part), ";")
		if name = strings.TrimSpace(name); name != "gzip" && name != "*" {
			continue
		}
		q := strings.TrimPrefix(strings.TrimSpace(quality), "q=")
		v, err := strconv.ParseFloat(q, 64)
		return quality == "" || err == nil && v > 0
	}
	return false
}
