// Package scenestest helps tests that need a window (Xvfb and xdotool), a page (Chromium) or a built program. What is
// missing on a machine skips the test with a line that says what to install.
package scenestest
