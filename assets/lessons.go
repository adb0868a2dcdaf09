package assets

import (
	"embed"
	"strings"
)

// Lessons holds the built-in lessons, lessons/NAME.LANGUAGE.md.
//
//go:embed lessons/*.md
var Lessons embed.FS

// LessonFiles lists the built-in lesson files.
func LessonFiles() []string {
	entries, err := Lessons.ReadDir("lessons")
	if err != nil {
		panic("assets: " + err.Error()) // the folder is embedded
	}
	var out []string
	for _, e := range entries {
		if e.Name() != "README.md" && strings.HasSuffix(e.Name(), ".md") {
			out = append(out, e.Name())
		}
	}
	return out
}
