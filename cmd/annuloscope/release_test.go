package main_test

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

// A release needs nothing but itself: no Go, no cache, no home. What it serves is the page that was built with it.
func TestReleaseServesWithoutBuilding(t *testing.T) {
	if _, err := exec.LookPath("bash"); err != nil {
		t.Skip("skipped: bash is not here, which the release script needs")
	}
	folder := filepath.Join(t.TempDir(), "release")
	if text, err := exec.Command("bash", "../../.ci/release", "--quick", folder).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	programs, _ := filepath.Glob(filepath.Join(folder, "annuloscope-*-linux-*"))
	pages, _ := filepath.Glob(filepath.Join(folder, "annuloscope-*-page.tar.gz"))
	if len(programs) != 1 || len(pages) != 1 {
		t.Fatalf("the release holds %v and %v", programs, pages)
	}
	bare := []string{"HOME=" + filepath.Join(folder, "nobody"), "PATH="}

	list := exec.Command(programs[0], "licences")
	list.Env = bare
	if out, err := list.Output(); err != nil || !strings.Contains(string(out), "SIL OPEN FONT LICENSE") {
		t.Errorf("licences: %v, %d bytes", err, len(out))
	}

	serve := exec.Command(programs[0], "serve", "--addr", "127.0.0.1:0")
	serve.Env, serve.Dir = bare, t.TempDir()
	errs, err := serve.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := serve.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { scenestest.Stop(serve) })
	line, err := bufio.NewReader(errs).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	var url string
	if _, err := fmt.Sscanf(line, "Annuloscope is at %s", &url); err != nil {
		t.Fatalf("the first thing it says is %q", line)
	}
	get := func(name string) []byte {
		r, err := http.NewRequest("GET", url+name, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Accept-Encoding", "gzip")
		a, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		defer a.Body.Close()
		body, err := io.ReadAll(a.Body)
		if err != nil || a.StatusCode != 200 || a.Header.Get("Content-Encoding") != "gzip" {
			t.Fatalf("%s: %s, %v", name, a.Status, err)
		}
		return body
	}
	sum := 0
	for _, name := range []string{"", "page.js", "page.css", "icon.svg", "wasm_exec.js"} {
		sum += len(get(name))
	}
	packed := get("annuloscope.wasm")
	sum += len(packed)
	if most := page.MostBytes; sum > most {
		t.Errorf("the page takes %d bytes on the way, more than %d", sum, most)
	}
	t.Logf("%d bytes on the way to a browser", sum)
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	wasm, err := io.ReadAll(z)
	if err != nil || !bytes.HasPrefix(wasm, []byte("\x00asm\x01\x00\x00\x00")) {
		t.Errorf("not a WebAssembly program: %d bytes, %v", len(wasm), err)
	}
	if left, _ := os.ReadDir(serve.Dir); len(left) > 0 {
		t.Errorf("serving left %v", left)
	}
}
