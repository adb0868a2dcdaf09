package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// engineless are the commands without --engine, and why. README has the same table.
var engineless = map[string]string{
	"cases": "lists files", "parameters": "lists the table of numbers", "repairs": "lists the table of repairs", "glossary": "lists the table of quantities",
	"version": "prints a word", "licences": "prints texts", "schema": "prints a form", "lesson schema": "prints a form", "lesson list": "prints titles",
	"set": "changes a file", "import": "makes a file from curves; closes no leaflets", "serve": "hands out the page, where the engine is chosen on the screen",
	"sweep run": "reads it from the manifest", "sweep merge": "puts files together; the header names it", "calibrate fit": "fits the ring alone",
	"verify": "runs both and shows them side by side",
}

// asked is one run of a command by either engine.
type asked struct {
	args string // DIR is a folder of its own
	file string // in DIR, where the answer is a file: what names the engine in it stands in says
	says string // in the file; %s is the engine. Empty: the answer is on standard output
	slow bool   // more than a second or two: with -tags long only

	codes bool // the name stands there as the numbers of its letters
}

// engined lists every command with --engine.
var engined = map[string][]asked{
	"open":                  {{args: "open normal --words", slow: true}},
	"solve":                 {{args: "solve normal", slow: true}, {args: "solve normal --json", slow: true}},
	"laboratory":            {{args: "laboratory normal --json"}, {args: "laboratory normal", slow: true}},
	"compare":               {{args: "compare normal --plan a:edge-clip --csv", slow: true}, {args: "compare normal --plan a:edge-clip --json", slow: true}, {args: "compare normal --plan a:edge-clip", slow: true}},
	"figure":                {{args: "figure normal -o DIR/f.png --width 400 --height 300 --field tension", file: "f.png", says: "engine\x00%s", slow: true}},
	"film":                  {{args: "film normal --frames 2 --width 400 --height 300 -o DIR/f.gif", file: "f.gif", says: "engine: %s", slow: true}},
	"handout":               {{args: "handout normal -o DIR/h.pdf", file: "h.pdf", slow: true}},
	"bench":                 {{args: "bench --moves 2", slow: true}, {args: "bench --moves 2 --json", slow: true}},
	"sweep plan":            {{args: "sweep plan normal --axis annulus.height_mm=5,6 -o DIR/m.yaml"}},
	"cohort":                {{args: "cohort -n 1 -o DIR/c.csv", file: "c.csv", says: "engine %s", slow: true}},
	"lesson check":          {{args: "lesson check ../../../assets/lessons/commissural-view.en.md", slow: true}},
	"lesson show":           {{args: "lesson show commissural-view", slow: true}},
	"lesson answers":        {{args: "lesson answers commissural-view", slow: true}},
	"followup":              {{args: "followup normal --repair sinus-band,delay_days=30 --days 1 --step 1", slow: true}, {args: "followup normal --repair sinus-band,delay_days=30 --days 1 --step 1 --json", slow: true}},
	"trade":                 {{args: "trade functional --repair sinus-band", slow: true}, {args: "trade functional --repair sinus-band --json", slow: true}},
	"calibrate predict":     {{args: "calibrate predict", slow: true}, {args: "calibrate predict --json", slow: true}},
	"calibrate sensitivity": {{args: "calibrate sensitivity", slow: true}},
	"mesh":                  {{args: "mesh normal -o DIR", file: "leaflet-anterior.vtp", codes: true, slow: true}},
}

// Every command takes --engine, or the table above says why not.
func TestEngineInEveryCommand(t *testing.T) {
	parser, err := kong.New(&line{})
	if err != nil {
		t.Fatal(err)
	}
	table, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range parser.Model.Leaves(false) {
		name := fullName(n)
		has := slices.ContainsFunc(n.Flags, func(f *kong.Flag) bool { return f.Name == "engine" })
		why, without := engineless[name]
		rows := engined[name]
		if has == without || has != (len(rows) > 0) {
			t.Errorf("%s: --engine %v, rows of a test %d, listed without %v", name, has, len(rows), without)
		}
		if without && !bytes.Contains(table, []byte("`"+name+"`: "+why)) {
			t.Errorf("README does not say that %q has no --engine because it %s", name, why)
		}
	}
}

// Another word is refused before anything is computed: the field, the value, what is allowed, and what to do are named.
func TestOtherEnginesAreRefused(t *testing.T) {
	for _, args := range []string{"bench --window", "bench --page", "bench", "solve normal", "open"} {
		for _, word := range []string{"mesh", "Shell", "shell,sections", "sections "} {
			var out, errs bytes.Buffer
			code := Run(append(strings.Fields(args), "--engine="+word), Streams{In: strings.NewReader(""), Out: &out, Err: &errs})
			want := fmt.Sprintf("--engine: %q is no engine; allowed: sections, shell; leave --engine out for the sections", word)
			if code != Usage || out.Len() > 0 || !strings.Contains(errs.String(), want) {
				t.Errorf("%s --engine=%s: exit %d, %q on standard output, %q; want %q", args, word, code, out.String(), errs.String(), want)
			}
		}
	}
}

// By the shell each command gives other numbers than by the sections, and each output says whose they are.
func TestEachEngineIsNamedAndDiffers(t *testing.T) {
	for name, rows := range engined {
		for _, r := range rows {
			if !r.slow || slowToo {
				t.Run(name, func(t *testing.T) { r.check(t, name) })
			}
		}
	}
}

func (r asked) check(t *testing.T, name string) {
	got := map[string][]byte{}
	for _, engine := range []string{"sections", "shell"} {
		dir := t.TempDir()
		var out, errs bytes.Buffer
		args := append(strings.Fields(strings.ReplaceAll(r.args, "DIR", dir)), "--engine", engine)
		if code := Run(args, Streams{In: strings.NewReader(""), Out: &out, Err: &errs}); code != Done {
			t.Fatalf("%v: exit %d: %s", args, code, errs.String())
		}
		if strings.Contains(errs.String(), "did not settle") {
			t.Errorf("%v: %s", args, errs.String())
		}
		said := out.Bytes()
		if r.file != "" {
			var err error
			if said, err = os.ReadFile(filepath.Join(dir, r.file)); err != nil {
				t.Fatal(err)
			}
		}
		want := []string{`"engine": "` + engine + `"`, "engine " + engine}
		if r.says != "" {
			want = []string{strings.ReplaceAll(r.says, "%s", engine)}
		}
		if r.codes {
			want = []string{strings.Trim(fmt.Sprint([]byte(engine)), "[]")}
		}
		if name != "handout" && !slices.ContainsFunc(want, func(w string) bool { return bytes.Contains(said, []byte(w)) }) { // a PDF is compressed
			t.Errorf("%v: says nowhere %q in\n%.300s", args, want, said)
		}
		for _, word := range []string{engine, dir} { // what is left differs by its numbers
			said = bytes.ReplaceAll(said, []byte(word), nil)
		}
		got[engine] = said
	}
	if name != "sweep plan" && bytes.Equal(got["sections"], got["shell"]) { // a plan holds no answers
		t.Errorf("%s: the same numbers by either engine", r.args)
	}
}
