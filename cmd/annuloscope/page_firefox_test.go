package main_test

import (
	"context"
	"net/http/httptest"
	"os"
	"testing"
	"time"

	"annuloscope/scenes/page"
	"annuloscope/scenes/scenestest"
)

// The page in Firefox: it opens, speaks, reacts to the pointer, to the keyboard and to its HTML side, shows another
// picture then, and asks nothing of any other server. Everything deeper is tested in Chromium.
func TestPageInFirefox(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), 4*time.Minute)
	defer cancel()
	site, err := page.Load(ctx, os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(page.Handler(site, page.Frames{}))
	defer server.Close()
	f := scenestest.OpenFirefox(t, server.URL+"/", 1024, 768, 3*time.Minute)
	solved := f.WaitState(90*time.Second, "solved", func(s scenestest.State) bool { return s.Pictures > 0 && !s.Pending })
	useThePage(t, f, solved)
	if outside := f.Outside(); outside != "" {
		t.Errorf("requests left this machine: %s", outside)
	}
}
