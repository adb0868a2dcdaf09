package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"annuloscope/scenes/present/study"
	"annuloscope/scenes/save"
)

// keeper keeps the state of the window between two starts, in the user's own configuration folder.
type keeper struct {
	file   string
	warn   io.Writer
	warned bool
	taken  bool  // the file is this session's own: its content was opened, or written by it
	refuse error // why nothing may be written; nil otherwise
}

// Limits of the kept state. Chosen: the largest document that study.Decode reads, and far longer than one save takes.
const (
	mostKept     = 1 << 20
	leftBehind   = time.Minute // age at which a temporary file belongs to a program that was killed
	mostSetAside = 9           // damaged states kept beside the good one
)

// newKeeper returns nil where there is no such folder (in the page).
func newKeeper(warn io.Writer) *keeper {
	dir, err := os.UserConfigDir()
	if err != nil {
		return nil
	}
	k := &keeper{file: filepath.Join(dir, "annuloscope", "state.json"), warn: warn}
	save.Sweep(k.file, leftBehind)
	return k
}

// Keep writes the state whole or not at all: whatever happens, the file holds the old state or the new one. It warns
// once when it cannot; the program goes on and tries again.
func (k *keeper) Keep(document []byte) error {
	err := k.refuse
	if err == nil {
		err = os.MkdirAll(filepath.Dir(k.file), 0o755)
	}
	if err == nil && !k.taken {
		err = k.spare()
	}
	if err == nil {
		err = save.File(k.file, func(w io.Writer) error {
			_, err := w.Write(document)
			return err
		})
	}
	if err != nil && !k.warned {
		fmt.Fprintf(k.warn, "annuloscope: the state is not kept: %v\n", err)
	}
	k.warned = err != nil
	k.taken = k.taken || err == nil
	return err
}

// spare keeps a state that this session has not opened under another name, before the first of its own replaces it.
func (k *keeper) spare() error {
	before := k.base() + "-before.json"
	if _, err := os.Lstat(k.file); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err := os.Remove(before); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if os.Link(k.file, before) == nil {
		return nil
	}
	return os.Rename(k.file, before) // a file system without links
}

func (k *keeper) base() string { return k.file[:len(k.file)-len(filepath.Ext(k.file))] }

// kept returns the state of last time, or nil. A file that cannot be used is never written over: it is set aside, and
// damaged is where it lies now.
func (k *keeper) kept() (document []byte, damaged string) {
	k.taken = true
	data, err := readFile(k.file, mostKept+1)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ""
	}
	if err == nil {
		if _, _, err = study.Decode(data); err == nil {
			return data, ""
		}
	}
	aside, failed := k.setAside()
	fmt.Fprintf(k.warn, "annuloscope: the state of last time cannot be read: %v\n", err)
	if failed != nil {
		k.refuse = fmt.Errorf("the damaged state %s cannot be set aside and is not written over: %w", k.file, failed)
		fmt.Fprintln(k.warn, "annuloscope:", k.refuse)
		return nil, k.file
	}
	fmt.Fprintf(k.warn, "annuloscope: it is set aside as %s\n", aside)
	return nil, aside
}

// setAside gives the state a name that is still free, or that of the last damaged one when there are many.
func (k *keeper) setAside() (string, error) {
	name := ""
	for i := 1; i <= mostSetAside; i++ {
		name = fmt.Sprintf("%s-damaged-%d.json", k.base(), i)
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			break
		}
	}
	return name, os.Rename(k.file, name)
}
