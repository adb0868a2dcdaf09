package page_test

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/page"
)

var program = bytes.Repeat([]byte("\x00asm nothing to run "), 1000)

func site(t *testing.T) *page.Site {
	t.Helper()
	s, err := page.NewSiteForTest(program, []byte("// loader"))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func ask(h http.Handler, method, target string, header ...string) *http.Response {
	r := httptest.NewRequest(method, "http://127.0.0.1/", nil)
	r.URL.Path, r.URL.RawQuery, _ = strings.Cut(target, "?")
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func TestFilesAndTheirTypes(t *testing.T) {
	h := page.Handler(site(t), page.Frames{})
	for path, want := range map[string]string{"/": "text/html; charset=utf-8", "/index.html": "text/html; charset=utf-8",
		"/page.js": "text/javascript; charset=utf-8", "/page.css": "text/css; charset=utf-8", "/icon.svg": "image/svg+xml",
		"/wasm_exec.js": "text/javascript; charset=utf-8", "/annuloscope.wasm": "application/wasm", "/?case=x&lang=de": "text/html; charset=utf-8"} {
		r := ask(h, "GET", path)
		if body, _ := io.ReadAll(r.Body); r.StatusCode != 200 || r.Header.Get("Content-Type") != want || len(body) == 0 {
			t.Errorf("%s: %d, %q, %d bytes", path, r.StatusCode, r.Header.Get("Content-Type"), len(body))
		}
	}
}

func TestEveryAnswerCarriesTheHeaders(t *testing.T) {
	h := page.Handler(site(t), page.Frames{})
	for _, r := range []*http.Response{ask(h, "GET", "/"), ask(h, "GET", "/annuloscope.wasm"), ask(h, "GET", "/nothing"), ask(h, "POST", "/")} {
		policy := r.Header.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "script-src 'self' 'wasm-unsafe-eval';", "frame-ancestors 'none'", "base-uri 'none'", "connect-src 'self'"} {
			if !strings.Contains(policy, want) {
				t.Errorf("%d: policy lacks %q: %s", r.StatusCode, want, policy)
			}
		}
		if strings.Contains(policy, "unsafe-inline") || strings.Contains(policy, "'unsafe-eval'") {
			t.Errorf("policy allows inline script or eval: %s", policy)
		}
		if r.Header.Get("X-Content-Type-Options") != "nosniff" || r.Header.Get("Referrer-Policy") != "no-referrer" || r.Header.Get("X-Frame-Options") != "DENY" {
			t.Errorf("%d: headers %v", r.StatusCode, r.Header)
		}
	}
}

// The page's own files must need neither inline script nor style nor another origin.
func TestShellKeepsThePolicy(t *testing.T) {
	h := page.Handler(site(t), page.Frames{})
	body, _ := io.ReadAll(ask(h, "GET", "/").Body)
	for _, bad := range []string{"<script>", " onclick", " onload", "style=", "http:", "https:", "javascript:"} {
		if bytes.Contains(body, []byte(bad)) {
			t.Errorf("index.html holds %q", bad)
		}
	}
	for _, must := range []string{"Educational only", "aria-live", "lang=\"en\"", "<noscript>"} {
		if !bytes.Contains(body, []byte(must)) {
			t.Errorf("index.html lacks %q", must)
		}
	}
}

func TestNoOtherMethodAndNoOtherPath(t *testing.T) {
	h := page.Handler(site(t), page.Frames{})
	for _, m := range []string{"POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT"} {
		if r := ask(h, m, "/"); r.StatusCode != 405 || r.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: %d", m, r.StatusCode)
		}
	}
	for _, p := range []string{"", "//", "/.", "/..", "/../go.mod", "/./index.html", "/index.html/", "/built", "/built/", "/page.js/../go.mod",
		"/%2e%2e/go.mod", "/..%2fgo.mod", "/etc/passwd", "\\..\\go.mod", "/annuloscope.wasm.gz", "/page.go", "/\x00", "/INDEX.HTML", "/favicon.ico"} {
		if r := ask(h, "GET", p); r.StatusCode != 404 {
			t.Errorf("%q: %d", p, r.StatusCode)
		}
	}
	r := ask(h, "HEAD", "/")
	if body, _ := io.ReadAll(r.Body); r.StatusCode != 200 || len(body) != 0 {
		t.Errorf("HEAD: %d, %d bytes", r.StatusCode, len(body))
	}
}

func TestCompression(t *testing.T) {
	h := page.Handler(site(t), page.Frames{})
	for _, c := range []struct {
		accept string
		packed bool
	}{{"gzip", true}, {"deflate, gzip;q=0.5, br", true}, {"*", true}, {"", false}, {"br", false}, {"gzip;q=0", false}} {
		r := ask(h, "GET", "/annuloscope.wasm", "Accept-Encoding", c.accept)
		body, _ := io.ReadAll(r.Body)
		if packed := r.Header.Get("Content-Encoding") == "gzip"; packed != c.packed {
			t.Errorf("Accept-Encoding %q: packed %v", c.accept, packed)
			continue
		}
		if c.packed {
			if len(body) > len(program)/10 {
				t.Errorf("%d bytes for a repetitive program of %d", len(body), len(program))
			}
			z, err := gzip.NewReader(bytes.NewReader(body))
			if err != nil {
				t.Fatal(err)
			}
			body, _ = io.ReadAll(z)
		}
		if !bytes.Equal(body, program) {
			t.Errorf("Accept-Encoding %q: the program came changed", c.accept)
		}
	}
	tag := ask(h, "GET", "/annuloscope.wasm").Header.Get("ETag")
	if r := ask(h, "GET", "/annuloscope.wasm", "If-None-Match", tag); r.StatusCode != 304 || tag == "" {
		t.Errorf("known content: %d, tag %q", r.StatusCode, tag)
	}
}

func TestFramePolicy(t *testing.T) {
	for text, want := range map[string]string{"": "'none'", "none": "'none'", "self": "'self'", "any": "*",
		"https://example.org": "https://example.org", "https://a.example, http://localhost:3000": "https://a.example http://localhost:3000"} {
		f, err := page.ParseFrames(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		r := ask(page.Handler(site(t), f), "GET", "/")
		if p := r.Header.Get("Content-Security-Policy"); !strings.HasSuffix(p, "frame-ancestors "+want) {
			t.Errorf("%q: %s", text, p)
		}
		if (r.Header.Get("X-Frame-Options") == "DENY") != (want == "'none'") {
			t.Errorf("%q: X-Frame-Options %q", text, r.Header.Get("X-Frame-Options"))
		}
	}
	for _, bad := range []string{"example.org", "https://a.example/path", "https://a.example; script-src *", "javascript:alert(1)", ",", "https://*"} {
		if _, err := page.ParseFrames(bad); err == nil || !strings.Contains(err.Error(), "none, self, any") {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

func TestServeListensAndStops(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	r, w := io.Pipe()
	ended := make(chan error, 1)
	go func() { ended <- page.Serve(ctx, "127.0.0.1:0", page.Handler(site(t), page.Frames{}), w) }()
	line, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	var url string
	if _, err := fmt.Sscanf(line, "Annuloscope is at %s", &url); err != nil {
		t.Fatalf("%q: %v", line, err)
	}
	resp, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != 200 {
		t.Errorf("status %d", resp.StatusCode)
	}
	address := strings.TrimSuffix(strings.TrimPrefix(url, "http://"), "/")
	if err := page.Serve(ctx, address, nil, io.Discard); err == nil || !strings.Contains(err.Error(), "--addr") {
		t.Errorf("address in use: %v", err)
	}
	huge(t, address)
	cancel()
	select {
	case err := <-ended:
		if err != nil {
			t.Errorf("end: %v", err)
		}
	case <-time.After(5 * time.Second):
		t.Error("does not stop")
	}
}

// huge sends a header larger than the limit (16 kB and a margin of 4 kB that net/http adds) and a raw path with dots.
func huge(t *testing.T, address string) {
	t.Helper()
	for request, want := range map[string]string{
		"GET / HTTP/1.1\r\nHost: x\r\nX-Long: " + strings.Repeat("a", 40<<10) + "\r\n\r\n": "431",
		"GET /../../go.mod HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n":               "404",
	} {
		c, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		c.SetDeadline(time.Now().Add(5 * time.Second))
		go io.WriteString(c, request)
		line, _ := bufio.NewReader(c).ReadString('\n')
		if !strings.Contains(line, want) {
			t.Errorf("%.40q…: %q, want %s", request, line, want)
		}
		c.Close()
	}
}

func TestServerHasLimits(t *testing.T) {
	s := page.NewServer(http.NotFoundHandler())
	for name, d := range map[string]time.Duration{"header": s.ReadHeaderTimeout, "read": s.ReadTimeout, "write": s.WriteTimeout, "idle": s.IdleTimeout} {
		if d <= 0 || d > 2*time.Minute {
			t.Errorf("%s timeout %v", name, d)
		}
	}
	if s.MaxHeaderBytes <= 0 || s.MaxHeaderBytes > 64<<10 {
		t.Errorf("header limit %d", s.MaxHeaderBytes)
	}
}
