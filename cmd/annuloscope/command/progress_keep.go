package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"annuloscope/scenes/present/lessonview"
	"annuloscope/scenes/present/study"
	"annuloscope/scenes/save"
)

// lessonKeeper keeps the progress in the lessons beside the kept state, in the user's own configuration folder.
type lessonKeeper struct{ file string }

// Keep writes the progress whole or not at all.
func (k lessonKeeper) Keep(data []byte) error {
	if err := os.MkdirAll(filepath.Dir(k.file), 0o755); err != nil {
		return err
	}
	return save.File(k.file, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// lessonProgress returns the keeper and what it kept. A file that cannot be read is not written over: nothing is kept then.
func lessonProgress(warn io.Writer) (study.Keeper, []byte) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return nil, nil
	}
	k := lessonKeeper{filepath.Join(dir, "annuloscope", "lessons.json")}
	save.Sweep(k.file, leftBehind)
	data, err := readFile(k.file, mostKept+1)
	if errors.Is(err, fs.ErrNotExist) {
		return k, nil
	}
	if err == nil {
		if _, err = lessonview.ReadProgress(data); err == nil {
			return k, data
		}
	}
	fmt.Fprintf(warn, "annuloscope: the progress in the lessons cannot be read, so none is kept: %v (%s)\n", err, k.file)
	return nil, nil
}
