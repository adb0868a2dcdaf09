package page_test

import (
	"net/http"
	"strings"
	"testing"

	"annuloscope/scenes/page"
)

// Whatever stands after --frames: refused, or a policy in which nothing but frame-ancestors has changed.
func FuzzParseFrames(f *testing.F) {
	for _, s := range []string{"", "none", "self", "any", "https://example.org", "https://a.example, http://localhost:3000", "https://a.example; script-src *", "https://*", "http://[::1]:80", "https://a\r\nX: y"} {
		f.Add(s)
	}
	loader, err := page.NewSiteForTest(program, []byte("// loader"))
	if err != nil {
		f.Fatal(err)
	}
	none, err := page.ParseFrames("none")
	if err != nil {
		f.Fatal(err)
	}
	const key = "Content-Security-Policy"
	want := strings.TrimSuffix(ask(page.Handler(loader, none), "GET", "/").Header.Get(key), "'none'")
	f.Fuzz(func(t *testing.T, text string) {
		frames, err := page.ParseFrames(text)
		if err != nil {
			return
		}
		r := ask(page.Handler(loader, frames), "GET", "/")
		got, ok := strings.CutPrefix(r.Header.Get(key), want)
		if !ok || strings.ContainsAny(got, ";,\r\n\x00") || r.StatusCode != http.StatusOK {
			t.Fatalf("%q gives the policy %q", text, r.Header.Get(key))
		}
	})
}
