package command

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"annuloscope/geometry/meshio"
	"annuloscope/sim/valve"

	"github.com/alecthomas/kong"
)

// said is one run of a command and the files in which the caution must stand as well (README, "The caution").
type said struct {
	args  string // DIR is a folder of its own, CASE a case file in it
	form  string // of standard output: text, json, csv, yaml, or none (a file alone)
	files []string
	slow  bool // seconds: with -tags long only
}

// cautions lists every command. A command that is not here fails the test: add how its output carries the caution.
var cautions = map[string][]said{
	"open":                  {{args: "open normal --words", form: "text", slow: true}},
	"cases":                 {{args: "cases", form: "text"}},
	"solve":                 {{args: "solve normal", form: "text", slow: true}, {args: "solve normal --json", form: "json"}},
	"serve":                 {}, // TestCautionOnThePage
	"compare":               {{args: "compare normal --plan a:edge-clip", form: "text", slow: true}, {args: "compare normal --plan a:edge-clip --csv", form: "csv"}, {args: "compare normal --plan a:edge-clip --json", form: "json", slow: true}},
	"figure":                {{args: "figure normal -o DIR/f.png --width 400 --height 300", form: "none", files: []string{"f.png"}}, {args: "figure normal -o DIR/f.svg", form: "none", files: []string{"f.svg"}}},
	"film":                  {{args: "film normal -o DIR/f.gif", form: "none", files: []string{"f.gif"}, slow: true}},
	"handout":               {{args: "handout normal -o DIR/h.pdf", form: "none", files: []string{"h.pdf"}, slow: true}},
	"bench":                 {{args: "bench --moves 20", form: "text", slow: true}, {args: "bench --moves 20 --json", form: "json", slow: true}},
	"parameters":            {{args: "parameters", form: "text"}},
	"repairs":               {{args: "repairs", form: "text"}},
	"glossary":              {{args: "glossary", form: "text"}},
	"sweep plan":            {{args: "sweep plan normal --axis annulus.height_mm=5,6 -o DIR/m.yaml", form: "text", files: []string{"m.yaml"}}},
	"sweep run":             {{args: "sweep run DIR/m.yaml -o DIR/r.csv", form: "text", files: []string{"r.csv"}}},
	"sweep merge":           {{args: "sweep merge DIR/r.csv -o DIR/all.csv", form: "text", files: []string{"all.csv"}}},
	"cohort":                {{args: "cohort -n 2 -o DIR/c.csv", form: "text", files: []string{"c.csv"}}},
	"version":               {{args: "version", form: "text"}},
	"licences":              {{args: "licences", form: "text"}},
	"verify":                {{args: "verify", form: "text", slow: true}, {args: "verify --json", form: "json", slow: true}, {args: "verify --markdown", form: "text", slow: true}},
	"schema":                {{args: "schema", form: "json"}},
	"lesson list":           {{args: "lesson list", form: "text"}},
	"lesson check":          {{args: "lesson check", form: "text", slow: true}},
	"lesson show":           {{args: "lesson show sinus-route", form: "text", slow: true}},
	"lesson answers":        {{args: "lesson answers sinus-route", form: "text", slow: true}},
	"lesson schema":         {{args: "lesson schema", form: "json"}},
	"laboratory":            {{args: "laboratory normal", form: "text"}, {args: "laboratory normal --json", form: "json", slow: true}},
	"import":                {{args: "import --annulus DIR/annulus-curve.csv -o DIR/i.yaml", form: "text", files: []string{"i.yaml"}}, {args: "import --annulus DIR/annulus-curve.vtp", form: "yaml"}},
	"set":                   {{args: "set CASE annulus.height_mm=5 -o DIR/s.yaml", form: "text", files: []string{"s.yaml"}}, {args: "set CASE annulus.height_mm=5", form: "yaml"}},
	"followup":              {{args: "followup normal --repair sinus-band,delay_days=30 --days 1 --step 1", form: "text", slow: true}, {args: "followup normal --repair sinus-band,delay_days=30 --days 1 --step 1 --json", form: "json", slow: true}},
	"trade":                 {{args: "trade normal --repair sinus-band", form: "text", slow: true}, {args: "trade normal --repair sinus-band --json", form: "json", slow: true}},
	"calibrate fit":         {{args: "calibrate fit", form: "text", slow: true}, {args: "calibrate fit --json", form: "json", slow: true}},
	"calibrate predict":     {{args: "calibrate predict", form: "text", slow: true}, {args: "calibrate predict --json", form: "json"}},
	"calibrate sensitivity": {{args: "calibrate sensitivity", form: "text", slow: true}, {args: "calibrate sensitivity --json", form: "json", slow: true}},
	"mesh": {{args: "mesh normal -o DIR", form: "text", files: []string{"annulus.vtp", "annulus.stl", "vein.vtp", "leaflet-anterior.stl",
		"annulus-curve.csv", "sinus-curve.vtp"}}},
}

// Every command says the caution, with --quiet too, in the place that the README names for the form of its output.
func TestCautionInEveryCommand(t *testing.T) {
	parser, err := kong.New(&line{})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "case.yaml"), []byte("annuloscope: 1\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	names := []string{"mesh", "sweep plan", "sweep run"} // others read what these write
	for _, n := range parser.Model.Leaves(false) {
		if name := fullName(n); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, name := range names {
		rows, ok := cautions[name]
		if !ok {
			t.Errorf("no check of the caution for the command %q: add a row to cautions in notice_test.go", name)
		}
		for _, r := range rows {
			if !r.slow || slowToo {
				r.check(t, dir)
			}
		}
	}
}

// fullName is a command with those it belongs to, such as sweep plan.
func fullName(n *kong.Node) string {
	if n.Parent == nil || n.Parent.Type == kong.ApplicationNode {
		return n.Name
	}
	return fullName(n.Parent) + " " + n.Name
}

func (r said) check(t *testing.T, dir string) {
	t.Helper()
	args := strings.Fields(strings.NewReplacer("DIR", dir, "CASE", filepath.Join(dir, "case.yaml")).Replace(r.args))
	var out, errs bytes.Buffer
	if code := Run(append(args, "--quiet"), Streams{In: strings.NewReader(""), Out: &out, Err: &errs}); code != Done {
		t.Errorf("%s: exit %d: %s", r.args, code, errs.String())
		return
	}
	if errs.Len() > 0 {
		t.Errorf("%s: --quiet, and it says %q", r.args, errs.String())
	}
	if !carries(r.form, out.Bytes()) {
		t.Errorf("%s: no caution in its place in\n%.400s", r.args, out.String())
	}
	for _, name := range r.files {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || !carries(strings.TrimPrefix(filepath.Ext(name), "."), data) {
			t.Errorf("%s: %s: %v, no caution in its place", r.args, name, err)
		}
	}
}

// carries tells whether data of a form has the caution where the README says.
func carries(form string, data []byte) bool {
	const short = "Educational only"
	lines := strings.Split(strings.TrimSpace(string(data)), "\n")
	switch form {
	case "none":
		return len(data) == 0
	case "text": // at its end
		return strings.Contains(strings.Join(lines[max(0, len(lines)-3):], "\n"), valve.Notice)
	case "json":
		var v struct{ Notice, Description string }
		return json.Unmarshal(data, &v) == nil && (strings.HasPrefix(v.Notice, valve.Notice) || strings.Contains(v.Description, short))
	case "csv": // meshio words it in its own way
		return strings.HasPrefix(lines[0], "# "+valve.Notice) || strings.HasPrefix(lines[0], "# "+meshio.NoticeLong)
	case "yaml":
		return strings.HasPrefix(lines[0], "# "+valve.Notice)
	case "vtp":
		return bytes.Contains(data, []byte(`Name="notice"`)) && bytes.Contains(data, []byte(`Name="caution"`))
	case "stl":
		return len(data) > 80 && bytes.Contains(data[:80], []byte(meshio.Notice))
	case "png":
		return bytes.Contains(data, []byte("Disclaimer\x00")) || bytes.Contains(data, []byte("Disclaimer"))
	case "svg":
		return bytes.Contains(data, []byte(short))
	case "gif":
		return strings.Contains(gifComment(data), short)
	case "pdf": // its properties are UTF-16, high byte first
		return bytes.Contains(data, []byte("\x00"+strings.Join(strings.Split(short, ""), "\x00")))
	}
	return false
}

// gifComment joins the blocks of the first comment (GIF89a, section 24).
func gifComment(data []byte) (text string) {
	at := bytes.Index(data, []byte{0x21, 0xFE})
	if at < 0 {
		return ""
	}
	for at += 2; at < len(data) && data[at] > 0 && at+int(data[at]) < len(data); at += 1 + int(data[at]) {
		text += string(data[at+1 : at+1+int(data[at])])
	}
	return text
}

// The page says it in its own text, before the program has started.
func TestCautionOnThePage(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "assets", "page", "index.html"))
	if err != nil || !bytes.Contains(data, []byte("Educational only")) {
		t.Errorf("%v: the page has no caution", err)
	}
}
