package program_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/scenes/present"
	"annuloscope/scenes/present/input"
	"annuloscope/scenes/present/link"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
)

var addLinks = flag.Bool("addlinks", false, "add files and links of this version to testdata/share where they are missing")

// corpus is what is shared in the files: built here once, kept in testdata for ever.
func corpus(t *testing.T) map[string]func(p *program.Program) {
	return map[string]func(p *program.Program){
		"v1-plain":   func(p *program.Program) {},
		"v1-band":    func(p *program.Program) { turn(t, p, "repair/sinus-band/shortening_mm", 20); key(p, "2", 0) },
		"v1-clips":   func(p *program.Program) { turn(t, p, "repair/edge-clip/position", 0.25); p.Desk().Hold("diastole") },
		"v1-german":  func(p *program.Program) { set(p, "projector", "de", 1.5); p.Desk().Look("ventricle") },
		"v1-patient": func(p *program.Program) { turn(t, p, "anatomy/annulus.septal_lateral_mm", 33); key(p, "3", 0) },
	}
}

// What was shared by an earlier version keeps opening, as a file and as a link, to the same state: files in testdata
// are never rewritten.
func TestOldLinksAndFilesKeepOpening(t *testing.T) {
	dir := filepath.Join("testdata", "share")
	if *addLinks {
		for name, do := range corpus(t) {
			p := start(t, "functional")
			do(p)
			file := filepath.Join(dir, name+".json")
			if _, err := os.Stat(file); err == nil {
				continue
			}
			data := p.Document().Encode()
			if err := os.WriteFile(file, data, 0o644); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, name+".link"), []byte("https://example.org/#"+link.Encode(data)+"\n"), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	files, _ := filepath.Glob(filepath.Join(dir, "*.json"))
	if len(files) < 5 {
		t.Fatalf("%d files in %s", len(files), dir)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		saved, err := os.ReadFile(strings.TrimSuffix(f, ".json") + ".link")
		if err != nil {
			t.Fatal(err)
		}
		want, warnings, err := study.Decode(data)
		if err != nil || len(warnings) > 0 {
			t.Errorf("%s: %v %v", f, err, warnings)
			continue
		}
		for way, open := range map[string]func(p *program.Program){
			"dropped file":     func(p *program.Program) { p.Handle(input.Event{Kind: input.Drop, Name: "x", Data: data}) },
			"dropped link":     func(p *program.Program) { p.Handle(input.Event{Kind: input.Drop, Name: "x", Data: saved}) },
			"address fragment": func(p *program.Program) { p.Open(link.In(string(saved)), "") },
		} {
			p := program.New(program.Config{Runner: study.NewSync(remembered{}), Cases: cases(t)})
			open(p)
			settle(p)
			if p.Desk().Bad || p.Desk().S.Failure != nil {
				t.Errorf("%s, %s: %q %v", f, way, p.Desk().Message, p.Desk().S.Failure)
			}
			if got := p.Document(); string(got.Encode()) != string(want.Encode()) {
				t.Errorf("%s, %s: opens to\n%s\nnot\n%s", f, way, got.Encode(), want.Encode())
			}
		}
	}
}

func TestAddressParameters(t *testing.T) {
	p := start(t, "functional")
	p.Open("", "case=high-sinus&scene=beat&theme=projector&lang=de&scale=150&view=ventricle&mode=diastole&still=1&minimal=1"+
		"&repair=sinus-band,shortening_mm=17&repair=edge-clip&set=annulus.height_mm=6.5")
	settle(p)
	d, s := p.Desk(), p.Desk().S
	if d.Message != "" {
		t.Errorf("message %q", d.Message)
	}
	doc := p.Document()
	if s.Case.Name != "high-sinus" || doc.Scene != "beat" || d.P.Theme != "projector" || d.P.Language != "de" || d.P.Scale != 1.5 || !d.P.Still ||
		d.V.Named != "ventricle" || d.V.Mode != "diastole" || len(s.Case.Repairs) != 2 || s.Case.Repairs[0].Value("shortening_mm") != 17 || s.Case.Patient.Annulus.HeightMM != 6.5 {
		t.Errorf("%+v %s", doc, s.Case.Name)
	}
	paint(p, 1280, 800)
	if _, ok := d.U.Find("settings"); ok {
		t.Error("minimal still shows the settings")
	}
	p.Open("", "page=knows")
	paint(p, 1280, 800)
	if _, ok := d.U.Find("knows/harm"); !ok {
		t.Error("page=knows")
	}
}

// Unknown and impossible parameters are said, with what is allowed; everything else in the address still counts.
func TestBadAddressesWarnAndNeverCrash(t *testing.T) {
	for _, c := range []struct{ fragment, query, want string }{
		{"", "colour=red&theme=dark", "lang, theme"},
		{"", "theme=pink", "light, dark, projector"},
		{"", "case=somebody", "high-sinus"},
		{"", "repair=glue", "glue"},
		{"", "repair=sinus-band,shortening_mm=900", "900"},
		{"", "set=annulus.height_mm", "path=number"},
		{"", "scale=7", "100"},
		{"", "%zz", "name=value"},
		{"state=1.AAAA", "", "copy the whole link"},
		{"state=7.AAAA", "", "version"},
		{"words", "", ""},
		{"", strings.Repeat("repair=edge-clip&", 4000), "8192"},
	} {
		p := start(t, "functional")
		p.Open(c.fragment, c.query)
		settle(p)
		if c.want == "" && p.Desk().Message != "" || !strings.Contains(p.Desk().Message, c.want) {
			t.Errorf("%q %.60q: message %q, want %q", c.fragment, c.query, p.Desk().Message, c.want)
		}
		if c.want != "" && !p.Desk().Bad {
			t.Errorf("%.60q is not refused", c.query)
		}
		if p.Desk().S.Failure != nil || p.Desk().S.Case.Name != "functional" {
			t.Errorf("%.60q: %v %s", c.query, p.Desk().S.Failure, p.Desk().S.Case.Name)
		}
	}
	p := start(t, "functional")
	if p.Open("", "colour=red&theme=dark"); p.Desk().P.Theme != "dark" {
		t.Error("a bad parameter kept a good one from counting")
	}
}

// The buttons of the page: what is wished for opens again to the same state.
func TestShareAndOpenAgain(t *testing.T) {
	p := start(t, "functional")
	turn(t, p, "repair/sinus-band/shortening_mm", 20)
	settle(p)
	key(p, "S", 0)
	paint(p, 1280, 800)
	want := string(p.Document().Encode())
	wishes := func(id string) map[present.WishKind]present.Wish {
		if err := p.Act(id, ""); err != nil {
			t.Fatal(err)
		}
		all := map[present.WishKind]present.Wish{}
		for _, w := range p.Wishes() {
			all[w.Kind] = w
		}
		return all
	}
	reopened := func(way string, open func(q *program.Program)) {
		q := start(t, "normal")
		open(q)
		if got := string(q.Document().Encode()); got != want {
			t.Errorf("%s: opens to\n%s\nnot\n%s", way, got, want)
		}
	}
	w := wishes("share/copy")
	if n := len(w[present.CopyText].Text); n > 2000 { // common practice: what every browser and mail program takes
		t.Errorf("the link has %d characters", n)
	}
	reopened("copied link", func(q *program.Program) { q.OpenFile([]byte(w[present.CopyText].Text)) })
	reopened("address", func(q *program.Program) { q.Open(w[present.SetAddress].Text, "") })
	saved := wishes("share/save")[present.SaveFile]
	reopened("file", func(q *program.Program) { q.Handle(input.Event{Kind: input.Drop, Data: saved.Data}) })
	if saved.Name != "annuloscope-functional.json" {
		t.Error(saved.Name)
	}
	if e := wishes("share/embed")[present.CopyText].Text; !strings.HasPrefix(e, "<iframe src=\"http://127.0.0.1:8080/?minimal=1#state=1.") || !strings.Contains(e, "title=") {
		t.Error(e)
	}
	// Without a clipboard the link goes into a file, and the person is told where.
	w = wishes("share/copy")
	w[present.CopyText].Done("", os.ErrPermission)
	for _, x := range p.Wishes() {
		if x.Kind != present.SaveFile || link.In(string(x.Data)) == "" {
			t.Errorf("%+v", x)
		}
		x.Done("/home/x/annuloscope-link.txt", nil)
	}
	if !strings.Contains(p.Announcement(), "/home/x/annuloscope-link.txt") {
		t.Errorf("%q", p.Announcement())
	}
}

// The README's table and the help page come from one list or are compared with it.
func TestREADMENamesEveryAddressParameter(t *testing.T) {
	data, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range program.Parameters() {
		if !strings.Contains(string(data), "`"+q.Example+"`") {
			t.Errorf("README.md does not show %s", q.Example)
		}
		p := start(t, "functional")
		if p.Open("", q.Example); p.Desk().Bad {
			t.Errorf("the example %s is refused: %s", q.Example, p.Desk().Message)
		}
	}
}
