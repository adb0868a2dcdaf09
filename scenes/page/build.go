//go:build !js

package page

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"annuloscope/scenes/save"
)

// program is the main package that the page runs.
const program = "annuloscope/cmd/annuloscope"

// Load returns the page: the embedded one of a release, else one built from source.
func Load(ctx context.Context, log io.Writer) (*Site, error) {
	if s, ok, err := Embedded(); ok || err != nil {
		return s, err
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		return nil, fmt.Errorf("no folder to build the page in: %w", err)
	}
	return Build(ctx, filepath.Join(cache, "annuloscope"), program, log)
}

// Build builds pkg of this module for the browser, with the Go that built this program where it is found, and keeps
// the result in the cache folder under a hash of the source and of Go's version, so that it is built once. It tells
// log what it does. It needs this program's source; a program without source returns an error that says so.
func Build(ctx context.Context, cache, pkg string, log io.Writer) (*Site, error) {
	goTool, err := findGo()
	if err != nil {
		return nil, err
	}
	root, err := source(ctx, goTool)
	if err != nil {
		return nil, err
	}
	version, err := output(ctx, root, goTool, "env", "GOVERSION", "GOROOT")
	if err != nil {
		return nil, err
	}
	goVersion, goRoot, _ := strings.Cut(version, "\n")
	loader, err := readLoader(strings.TrimSpace(goRoot))
	if err != nil {
		return nil, err
	}
	flags, err := buildFlags(root)
	if err != nil {
		return nil, err
	}
	key, err := hash(ctx, goTool, root, pkg, pkg+" "+goVersion+" "+strings.Join(flags, " "))
	if err != nil {
		return nil, fmt.Errorf("reading the source: %w", err)
	}
	name := filepath.Join(cache, "page-"+key+".wasm.gz")
	if packed, err := os.ReadFile(name); err == nil {
		return newSite(packed, loader)
	}
	fmt.Fprintf(log, "Building the page once with %s; it is kept in %s.\n", goVersion, cache)
	packed, err := compile(ctx, goTool, root, pkg, flags)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(cache, 0o755); err == nil {
		err = save.File(name, func(w io.Writer) error { _, err := w.Write(packed); return err })
		if err != nil {
			fmt.Fprintf(log, "The page could not be kept (%v); it will be built again next time.\n", err)
		} else {
			forget(cache, name)
		}
	}
	return newSite(packed, loader)
}

// buildFlags are how the page is built, here as in a release: small. Inlining makes the packed program 11 % larger, so it
// is left to the packages whose speed is felt (solvers, painter, what they call).
func buildFlags(root string) ([]string, error) {
	data, err := os.ReadFile(filepath.Join(root, "assets", "page", "build-flags.txt"))
	if err != nil {
		return nil, err
	}
	return strings.Split(strings.TrimSpace(strings.ReplaceAll(string(data), "\r", "")), "\n"), nil
}

// compile builds the program and packs it.
func compile(ctx context.Context, goTool, root, pkg string, flags []string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "annuloscope-page-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "annuloscope.wasm")
	args := append([]string{"build"}, flags...)
	cmd := exec.CommandContext(ctx, goTool, append(args, "-o", out, pkg)...)
	cmd.Dir = root
	cmd.Env = browser()
	if text, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building the page: %w\n%s", err, bytes.TrimSpace(text))
	}
	data, err := os.ReadFile(out)
	if err != nil {
		return nil, err
	}
	return pack(data), nil
}

// browser is the environment in which Go builds for the browser.
func browser() []string {
	return append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=")
}

// findGo prefers the Go that built this program.
func findGo() (string, error) {
	name := "go"
	if runtime.GOOS == "windows" {
		name = "go.exe"
	}
	if root := os.Getenv("GOROOT"); root != "" {
		if p := filepath.Join(root, "bin", name); exists(p) {
			return p, nil
		}
	}
	p, err := exec.LookPath("go")
	if err != nil {
		return "", errors.New("the page must be built with Go, which is not in the PATH; a release carries the page ready-made")
	}
	return p, nil
}

func exists(name string) bool { _, err := os.Stat(name); return err == nil }

// source returns the folder of this module: where this file was compiled, or what Go finds from the current folder.
func source(ctx context.Context, goTool string) (string, error) {
	if _, file, _, ok := runtime.Caller(0); ok && filepath.IsAbs(file) && exists(file) {
		return filepath.Dir(filepath.Dir(filepath.Dir(file))), nil
	}
	dir, err := output(ctx, ".", goTool, "list", "-m", "-f", "{{.Dir}}", "annuloscope")
	if err != nil || dir == "" {
		return "", errors.New("the page is not part of this program and its source is not here; run it from the source folder, or use a release")
	}
	return dir, nil
}

func output(ctx context.Context, dir, goTool string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, goTool, args...)
	cmd.Dir, cmd.Env = dir, browser()
	var failure bytes.Buffer
	cmd.Stderr = &failure
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w: %s", args[0], err, strings.TrimSpace(failure.String()))
	}
	return strings.TrimSpace(string(out)), nil
}

// readLoader reads Go's own loader of WebAssembly programs.
func readLoader(root string) ([]byte, error) {
	var first error
	for _, dir := range []string{"lib", "misc"} { // misc before Go 1.24
		data, err := os.ReadFile(filepath.Join(root, dir, "wasm", "wasm_exec.js"))
		if err == nil {
			return data, nil
		}
		if first == nil {
			first = err
		}
	}
	return nil, fmt.Errorf("the browser loader of this Go is missing: %w", first)
}

// hash sums up everything of this module that the build reads, and extra.
func hash(ctx context.Context, goTool, root, pkg, extra string) (string, error) {
	const each = `{{$d := .Dir}}{{if .Module}}{{if .Module.Main}}{{range .GoFiles}}{{$d}}/{{.}}{{"\n"}}{{end}}{{range .EmbedFiles}}{{$d}}/{{.}}{{"\n"}}{{end}}{{end}}{{end}}`
	list, err := output(ctx, root, goTool, "list", "-deps", "-f", each, pkg)
	if err != nil {
		return "", err
	}
	names := append(strings.Split(list, "\n"), filepath.Join(root, "go.mod"), filepath.Join(root, "go.sum"))
	h := sha256.New()
	io.WriteString(h, extra)
	for _, name := range names {
		if name == "" {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			return "", err
		}
		short, err := filepath.Rel(root, name)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(h, "\n%s %d\n", filepath.ToSlash(short), len(data))
		h.Write(data)
	}
	return hex.EncodeToString(h.Sum(nil)[:12]), nil
}

// forget removes pages of other sources.
func forget(cache, keep string) {
	old, err := filepath.Glob(filepath.Join(cache, "page-*.wasm.gz"))
	if err != nil {
		return
	}
	for _, name := range old {
		if name != keep {
			os.Remove(name) // one that stays only takes room
		}
	}
}
