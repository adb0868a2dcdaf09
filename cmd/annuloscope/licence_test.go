package main_test

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"sort"
	"strings"
	"testing"

	"annuloscope/assets/licence"
)

var update = flag.Bool("update", false, "write assets/licence/LICENCES.txt anew")

// kinds recognises a licence by a sentence of its own (spaces made one); what is recognised by none fails the test.
var kinds = []struct{ name, says string }{
	{"MIT and Apache 2.0", "This project is covered by two different licenses: MIT and Apache"},
	{"Apache 2.0", "Apache License Version 2.0"},
	{"BSD 3-clause", "may be used to endorse or promote products derived from"},
	{"BSD 2-clause", "Redistribution and use in source and binary forms, with or without modification, are permitted"},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated documentation files"},
	{"SIL Open Font 1.1", "SIL OPEN FONT LICENSE Version 1.1"},
	{"Bitstream Vera and public domain", "Bitstream Vera Fonts Copyright"},
	{"zlib", "This software is provided 'as-is', without any express or implied warranty."},
}

func kind(text string) string {
	flat := strings.Join(strings.Fields(text), " ")
	for _, k := range kinds {
		if strings.Contains(flat, k.says) {
			return k.name
		}
	}
	return ""
}

// module is something carried, with the files that hold its licences, the main one first.
type module struct {
	name  string
	files []string
}

// carried lists the modules linked into a release for any system, and the Go library itself.
func carried(t *testing.T) []module {
	t.Helper()
	found := map[string]string{}
	for _, system := range []string{"linux/amd64", "linux/arm64", "darwin/amd64", "darwin/arm64", "windows/amd64", "js/wasm"} {
		goos, arch, _ := strings.Cut(system, "/")
		c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", "annuloscope/cmd/annuloscope")
		c.Env = append(os.Environ(), "GOOS="+goos, "GOARCH="+arch, "CGO_ENABLED=0")
		out, err := c.Output()
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range strings.Split(strings.TrimSpace(string(out)), "\n") {
			if name, dir, ok := strings.Cut(l, "\t"); ok {
				found[name] = dir
			}
		}
	}
	var out []module
	for name, dir := range found {
		out = append(out, module{name, licenceFiles(t, dir)})
	}
	sort.Slice(out, func(i, j int) bool { return out[i].name < out[j].name })
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	library := module{"Go standard library and wasm_exec.js", licenceFiles(t, strings.TrimSpace(string(root)))}
	font := "../../assets/font/"
	return append([]module{library}, append(out, module{"text font (Liberation Sans, subset)", []string{font + "text-LICENSE"}},
		module{"symbol font (DejaVu Sans, subset)", []string{font + "symbols-LICENSE"}})...)
}

// licenceFiles finds a module's licence, and after it notices, patents and the licences of code it contains.
func licenceFiles(t *testing.T, dir string) []string {
	t.Helper()
	var first, more []string
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		upper := strings.ToUpper(e.Name())
		path := filepath.Join(dir, e.Name())
		switch {
		case e.IsDir() && strings.Contains(upper, "THIRD_PARTY"):
			inner, err := os.ReadDir(path)
			if err != nil {
				t.Fatal(err)
			}
			for _, i := range inner {
				more = append(more, filepath.Join(path, i.Name()))
			}
		case e.IsDir():
		case strings.HasPrefix(upper, "LICENSE"), strings.HasPrefix(upper, "LICENCE"), strings.HasPrefix(upper, "COPYING"):
			first = append(first, path)
		case strings.HasPrefix(upper, "NOTICE"), upper == "PATENTS":
			more = append(more, path)
		}
	}
	if len(first) == 0 {
		t.Fatalf("%s holds no licence", dir)
	}
	return append(first, more...)
}

// generated is the list, with each text once.
func generated(t *testing.T) string {
	t.Helper()
	var list, texts strings.Builder
	seen := map[string]int{}
	for _, m := range carried(t) {
		var numbers []string
		name := ""
		for i, f := range m.files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			text := strings.TrimSpace(strings.ReplaceAll(string(data), "\r\n", "\n"))
			if i == 0 {
				if name = kind(text); name == "" {
					t.Errorf("%s: the licence in %s is not one of those known here; read it before it is carried", m.name, f)
				}
			}
			n, known := seen[text]
			if !known {
				n = len(seen) + 1
				seen[text] = n
				fmt.Fprintf(&texts, "\n\n[%d] %s: %s\n\n%s\n", n, m.name, filepath.Base(f), text)
			}
			numbers = append(numbers, fmt.Sprint(n))
		}
		fmt.Fprintf(&list, "%-80s %-34s %s\n", m.name, name, strings.Join(numbers, ", "))
	}
	return "What a release of Annuloscope carries besides its own files, with the licence and the numbers of its texts below.\n\n" + list.String() + texts.String()
}

// The list of licences is complete, current, and holds no licence that nobody has looked at.
func TestLicences(t *testing.T) {
	want := generated(t)
	if *update {
		if err := os.WriteFile("../../assets/licence/LICENCES.txt", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if strings.Contains(runtime.Version(), "devel") {
		t.Log("a Go under development: its own licence may differ")
	}
	if licence.Text != want {
		a, b := strings.Split(licence.Text, "\n"), strings.Split(want, "\n")
		for _, l := range b {
			if !slices.Contains(a, l) {
				t.Errorf("missing: %s", l)
			}
		}
		for _, l := range a {
			if !slices.Contains(b, l) {
				t.Errorf("no longer carried: %s", l)
			}
		}
		t.Fatal("assets/licence/LICENCES.txt is not current; make it with: go test ./cmd/annuloscope -run TestLicences -update")
	}
}
