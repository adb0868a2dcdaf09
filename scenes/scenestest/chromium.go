package scenestest

import (
	"context"
	"os/exec"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// Chromium starts a headless browser of w by h pixels that makes no request of its own, and returns a context for
// chromedp.Run that ends with the test. It skips the test if Chromium is missing.
func Chromium(tb testing.TB, w, h int, timeout time.Duration) context.Context {
	tb.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		tb.Skip("skipped: Chromium is not here (Debian package chromium)")
	}
	options := []chromedp.ExecAllocatorOption{
		chromedp.ExecPath(path), chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.Headless, chromedp.NoSandbox,
		chromedp.DisableGPU, chromedp.WindowSize(w, h), chromedp.UserDataDir(tb.TempDir()),
		chromedp.Flag("enable-unsafe-swiftshader", true), chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("force-device-scale-factor", "1"),
	}
	limited, cancel := context.WithTimeout(context.Background(), timeout)
	tb.Cleanup(cancel)
	alloc, cancelAlloc := chromedp.NewExecAllocator(limited, options...)
	tb.Cleanup(cancelAlloc)
	ctx, cancelTab := chromedp.NewContext(alloc)
	tb.Cleanup(cancelTab)
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		tb.Fatalf("Chromium did not start: %v", err)
	}
	return ctx
}
