package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"annuloscope/scenes/save"
)

// keeper keeps the state of the window between two starts, in the user's own configuration folder.
type keeper struct {
	file   string
	warn   io.Writer
	warned bool
}

// newKeeper returns nil where there is no such folder (in the page).
func newKeeper(warn io.Writer) *keeper {
	dir, err := os.UserConfigDir()
	if err != nil {
		return nil
	}
	return &keeper{file: filepath.Join(dir, "annuloscope", "state.json"), warn: warn}
}

// Keep writes the state whole or not at all. It warns once when it cannot; the program goes on.
func (k *keeper) Keep(document []byte) error {
	err := os.MkdirAll(filepath.Dir(k.file), 0o755)
	if err == nil {
		err = save.File(k.file, func(w io.Writer) error {
			_, err := w.Write(document)
			return err
		})
	}
	if err != nil && !k.warned {
		k.warned = true
		fmt.Fprintf(k.warn, "annuloscope: the state is not kept: %v\n", err)
	}
	return err
}

// kept returns the state of last time, or nil.
func (k *keeper) kept() []byte {
	const most = 1 << 20
	data, err := readFile(k.file, most)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		fmt.Fprintf(k.warn, "annuloscope: the state of last time cannot be read: %v\n", err)
	}
	if err != nil {
		return nil
	}
	return data
}
