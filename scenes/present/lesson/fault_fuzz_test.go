package lesson_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"annuloscope/assets"
	"annuloscope/scenes/present/lesson"
	"annuloscope/sim/casefile"
)

// A lesson of any content: refused with every fault listed, or one whose reading says nothing else the second time.
func FuzzParse(f *testing.F) {
	files, _ := filepath.Glob("../../../assets/lessons/*.md")
	for _, name := range files {
		if data, err := os.ReadFile(name); err == nil && len(data) < 20_000 {
			f.Add(data)
		}
	}
	f.Add([]byte("---\nname: x\n---\n"))
	f.Add([]byte("---\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		_, err := lesson.Parse(data, func(name string) (casefile.Case, error) {
			text, err := assets.Cases.ReadFile("cases/" + name + ".yaml")
			if err != nil {
				return casefile.Case{}, err
			}
			return casefile.Decode(text)
		})
		var list lesson.Errors
		if err != nil && (!errors.As(err, &list) || len(list) == 0) {
			t.Fatalf("%v is not a list of faults", err)
		}
	})
}
