package main_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// reads are the beginnings of the names of functions that take something from outside.
var reads = []string{"Decode", "Parse", "Read", "Import", "Open", "Update", "Resume", "Merge", "Load", "Unmarshal"}

// notDecoders take no bytes from outside although they are called like it, or hand them on to a decoder at once.
var notDecoders = map[string]string{
	"scenes/present/program ReadCases":      "casefile.Decode of each file",
	"scenes/present/program Load":           "study.Decode",
	"scenes/present/program OpenFile":       "casefile.Decode, study.Decode, lectern.Decode, measured.Import",
	"scenes/present/lesson ReadAll":         "lesson.Parse of each file",
	"scenes/page Load":                      "builds the page from this program's own source",
	"cmd/annuloscope/command Load":          "casefile.Decode",
	"cmd/annuloscope/command UnmarshalText": "one of two words or none: table test in command",
	"sim/lab ReadLeak":                      "reads a number off a computed leak",
	"scenes/scenestest OpenPage":            "for tests",
	"scenes/scenestest OpenFirefox":         "for tests",
	"scenes/scenestest/tiny Open":           "for tests",
	"sim/ring/calibrate Open":               "tells whether a constant is open to the fit",
	"geometry/meshio Read":                  "chooses among ReadCSV, ReadVTK and ReadVTP by the first bytes",
	"scenes/present/words Parse":            "a number typed: table tests in words, runes of every kind from the monkey",
}

// Every exported function that decodes bytes or text from outside has a fuzz target in its own package.
func TestEveryDecoderIsFuzzed(t *testing.T) {
	root := filepath.Join("..", "..")
	decoders, fuzzed := map[string][]string{}, map[string]bool{}
	set := token.NewFileSet()
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		f, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		pkg := filepath.ToSlash(rel)
		for _, decl := range f.Decls {
			fn, ok := decl.(*ast.FuncDecl)
			if !ok {
				continue
			}
			name := fn.Name.Name
			if strings.HasSuffix(path, "_test.go") {
				if strings.HasPrefix(name, "Fuzz") {
					fuzzed[pkg] = true
				}
				continue
			}
			if fn.Name.IsExported() && outside(fn) {
				decoders[pkg] = append(decoders[pkg], name)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for pkg, names := range decoders {
		for _, name := range names {
			if _, known := notDecoders[pkg+" "+name]; known {
				continue
			}
			n++
			if !fuzzed[pkg] {
				t.Errorf("%s.%s takes what comes from outside, and %s has no fuzz target", pkg, name, pkg)
			}
		}
	}
	if n < 12 {
		t.Errorf("only %d decoders were found: the search is broken", n)
	}
	t.Logf("%d decoders in %d fuzzed packages", n, len(fuzzed))
}

// outside tells whether a function is called like a decoder and takes bytes, text or a reader.
func outside(fn *ast.FuncDecl) bool {
	named := false
	for _, r := range reads {
		named = named || strings.HasPrefix(fn.Name.Name, r)
	}
	if !named {
		return false
	}
	for _, p := range fn.Type.Params.List {
		switch x := p.Type.(type) {
		case *ast.Ident:
			if x.Name == "string" {
				return true
			}
		case *ast.ArrayType:
			if e, ok := x.Elt.(*ast.Ident); ok && e.Name == "byte" {
				return true
			}
		case *ast.SelectorExpr:
			if x.Sel.Name == "Reader" {
				return true
			}
		}
	}
	return false
}
