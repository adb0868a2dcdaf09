// Package save moves finished files into place, so that no half-written file is ever seen under its final name.
package save

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// File calls write with a temporary file in name's folder and, when all went well, gives it its name in one step. An
// existing file is replaced only then. After an error nothing is left behind and the old file is untouched; a program
// killed in between leaves at most a hidden ".name.*.tmp" file.
func File(name string, write func(io.Writer) error) error {
	dir, base := filepath.Split(name)
	if dir == "" {
		dir = "."
	}
	f, err := os.CreateTemp(dir, "."+base+".*.tmp")
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	done := false // also false after a panic in write
	defer func() {
		if !done {
			f.Close() // closing twice is harmless here: the first error is the one told
			os.Remove(f.Name())
		}
	}()
	w := bufio.NewWriterSize(f, 1<<16)
	if err := write(w); err != nil {
		return err
	}
	if err := w.Flush(); err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	if err := f.Sync(); err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	// CreateTemp makes the file readable by its owner only; a figure is as readable as other new files.
	if err := f.Chmod(mode(name)); err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	if err := f.Close(); err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	if err := os.Rename(f.Name(), name); err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	done = true
	return nil
}

// mode keeps the permissions of a file that is replaced.
func mode(name string) os.FileMode {
	if info, err := os.Stat(name); err == nil {
		return info.Mode().Perm()
	}
	return 0o644
}

// Sweep removes the temporary files that programs killed while they wrote name have left, when they are older than
// age (a younger one may be in use). It is no matter if one stays.
func Sweep(name string, age time.Duration) {
	dir, base := filepath.Split(name)
	if dir == "" {
		dir = "."
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), "."+base+".") || !strings.HasSuffix(e.Name(), ".tmp") || !e.Type().IsRegular() {
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > age {
			os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}
