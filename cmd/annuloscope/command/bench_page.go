package command

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"time"

	"annuloscope/scenes"
	"annuloscope/scenes/pace"
	"annuloscope/scenes/page"
)

// browser is a browser that can be asked to show a page, and how.
type browser struct {
	names   []string
	screen  bool // it needs a display: without one it has no WebGL
	options string
	args    func(profile string, w, h int) []string
}

// browsers in the order in which they are tried.
var browsers = []browser{
	{[]string{"chromium", "chromium-browser", "google-chrome", "chrome"}, false, "", func(profile string, w, h int) []string {
		return []string{"--headless", "--no-sandbox", "--disable-gpu", "--enable-unsafe-swiftshader", "--disable-quic", "--no-first-run", "--disable-background-networking",
			"--disable-component-update", "--disable-sync", "--disable-dev-shm-usage", "--force-device-scale-factor=1", "--user-data-dir=" + profile, fmt.Sprintf("--window-size=%d,%d", w, h),
			"--remote-debugging-port=0"} // without it a headless Chromium prints the page and ends
	}},
	{[]string{"firefox", "firefox-esr"}, true, page.FirefoxOptions, func(profile string, w, h int) []string {
		return []string{"--no-remote", "--profile", profile, "--width", fmt.Sprint(w), "--height", fmt.Sprint(h)}
	}},
}

// path returns where the browser is; empty where it is not.
func (b browser) path() string {
	for _, n := range b.names {
		if path, err := exec.LookPath(n); err == nil {
			return path
		}
	}
	return ""
}

func findBrowser() (browser, error) {
	for _, b := range browsers {
		if b.path() != "" {
			return b, nil
		}
	}
	return browser{}, failWith(Failed, "no browser found here (chromium or firefox)")
}

// inPage serves the page on this machine, opens it at each size and takes what the page says of itself.
func (c *benchCmd) inPage(s *Streams) (rows []benchRow, where string, err error) {
	b, err := findBrowser()
	if err != nil {
		return nil, "", err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	site, err := page.Load(ctx, s.Err)
	if err != nil {
		return nil, "", err
	}
	results := make(chan scenes.Driven, 1)
	patience := time.Minute + time.Duration(c.Moves)*c.patience()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, "", err
	}
	server := page.NewServer(collect(page.Handler(site, page.Frames{}), results))
	go server.Serve(listener)
	defer server.Close()
	for _, size := range benchSizes {
		address := fmt.Sprintf("http://%s/?bench=%s", listener.Addr(), c.drive().Address())
		times, err := inBrowser(ctx, b, address, size, results, patience)
		if err != nil {
			return nil, "", err
		}
		rows = append(rows, rowOf(size[0], size[1], times))
	}
	return rows, wherePage + ", " + b.names[0], nil
}

// collect answers as h does, and takes the page's result.
func collect(h http.Handler, results chan<- scenes.Driven) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/bench-result" {
			h.ServeHTTP(w, r)
			return
		}
		text, err := url.QueryUnescape(r.URL.RawQuery)
		var got scenes.Driven
		if err == nil {
			err = json.Unmarshal([]byte(text), &got)
		}
		if err != nil {
			http.Error(w, "not a result", http.StatusBadRequest)
			return
		}
		select {
		case results <- got:
		default: // one is waiting already
		}
		w.WriteHeader(http.StatusNoContent)
	})
}

// patience is how long a move in the page may take.
func (c *benchCmd) patience() time.Duration {
	if c.shell() {
		return shellPatience
	}
	return time.Second
}

// inBrowser opens the address and waits for the result.
func inBrowser(ctx context.Context, with browser, address string, size [2]int, results <-chan scenes.Driven, most time.Duration) (times pace.Summaries, err error) {
	profile, err := os.MkdirTemp("", "annuloscope-bench-")
	if err != nil {
		return times, err
	}
	defer os.RemoveAll(profile)
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(with.options), 0o600); err != nil {
		return times, err
	}
	var said strings.Builder
	b := exec.Command(with.path(), append(with.args(profile, size[0], size[1]), address)...)
	b.Stderr = io.Writer(&said)
	b.WaitDelay = 2 * time.Second
	if err := b.Start(); err != nil {
		return times, err
	}
	ended := make(chan error, 1)
	go func() { ended <- b.Wait() }()
	patience := time.NewTimer(most)
	defer patience.Stop()
	select {
	case got := <-results:
		times = got.Summaries
		switch {
		case got.Error != "":
			err = failWith(Failed, "the page: %s", got.Error)
		case times.Causes.Count == 0:
			err = failWith(Failed, "the page answered none of the moves of %s", benchSlider)
		}
	case <-ended:
		return times, failWith(Failed, "%s ended before the page had measured anything:\n%s", with.names[0], said.String())
	case <-patience.C:
		err = failWith(Failed, "the page measured nothing within %v", most)
	case <-ctx.Done():
		err = failWith(Interrupted, "interrupted")
	}
	b.Process.Kill()
	<-ended
	return times, err
}
