package command

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"annuloscope/scenes/present/draw"
	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/casefile"
	"annuloscope/sim/repair"
)

// state is a document of which n can be read back: the band is shortened by n mod 400 tenths of a millimetre.
func state(n int) []byte {
	c := casefile.Case{Name: fmt.Sprintf("state-%d", n), Title: strings.Repeat("long ", n%70), Patient: anatomy.Normal()}
	c.Repairs = []repair.Step{repair.Must(repair.SinusBand).With("shortening_mm", float64(n%400)/10)}
	return study.Document{Scene: "valve", Open: c, View: study.DefaultView(), Settings: study.DefaultSettings()}.Encode()
}

func number(t *testing.T, document []byte) int {
	t.Helper()
	d, _, err := study.Decode(document)
	if err != nil {
		t.Fatalf("the kept state of %d bytes is damaged: %v", len(document), err)
	}
	var n int
	if _, err := fmt.Sscanf(d.Open.Name, "state-%d", &n); err != nil || !bytes.Equal(document, state(n)) {
		t.Fatalf("the kept state is not one that was written: %s", d.Open.Name)
	}
	return n
}

// keepForever is what the child of a fault test does: it keeps state after state and says each number once it is kept.
func keepForever(first int) {
	k := newKeeper(os.Stderr)
	k.kept()
	for n := first; n < first+100_000; n++ {
		if k.Keep(state(n)) == nil {
			fmt.Println(n)
		}
	}
}

// Killed at a random moment while saving, again and again: the file is always one whole state, never older than the
// last one that was said to be kept, and the temporary files of the dead do not pile up.
func TestKilledWhileSaving(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", home)
	folder := filepath.Join(home, "annuloscope")
	r := rand.New(rand.NewPCG(7, 1)) // fixed seed
	const kills = 30
	reached, torn := 0, 0
	for round := range kills {
		c := faulty("keep-forever", fmt.Sprint(reached+1))
		out, err := c.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewReader(out)
		first, err := lines.ReadString('\n') // the first state is kept: now at any moment
		if err != nil {
			t.Fatalf("round %d: the child kept nothing: %v", round, err)
		}
		time.Sleep(time.Duration(r.IntN(40_000)) * time.Microsecond)
		c.Process.Kill()
		rest, _ := io.ReadAll(lines)
		c.Wait()
		said := first + string(rest)
		said = said[:strings.LastIndexByte(said, '\n')] // a last line without its end was cut short
		said = said[strings.LastIndexByte(said, '\n')+1:]
		last := 0
		fmt.Sscan(said, &last)
		document, damaged := newKeeper(os.Stderr).kept()
		if damaged != "" || document == nil {
			t.Fatalf("round %d: no state; set aside: %q", round, damaged)
		}
		n := number(t, document)
		if n < last {
			t.Fatalf("round %d: state %d was kept, the file holds %d", round, last, n)
		}
		reached = n
		left, _ := filepath.Glob(filepath.Join(folder, ".state.json.*.tmp"))
		torn = max(torn, len(left))
	}
	if reached < kills {
		t.Fatalf("only %d states were kept in %d rounds: nothing was tested", reached, kills)
	}
	t.Logf("%d kills, %d states kept, %d half-written files left behind", kills, reached, torn)
	old := time.Now().Add(-time.Hour)
	left, _ := filepath.Glob(filepath.Join(folder, ".*.tmp"))
	for _, name := range left {
		os.Chtimes(name, old, old)
	}
	newKeeper(os.Stderr)
	if left, _ = filepath.Glob(filepath.Join(folder, ".*.tmp")); len(left) > 0 {
		t.Errorf("the next start leaves %v", left)
	}
}

// What is damaged is set aside, never written over, and said; the program starts with its first patient.
func TestDamagedState(t *testing.T) {
	whole := string(state(7))
	for i, damaged := range []string{"", "\x00\x00\x00", whole[:len(whole)/2], strings.Replace(whole, `"version": 1`, `"version": 99`, 1),
		strings.Replace(whole, "sinus-band", "sinus-bond", 1), strings.Repeat("x", mostKept+10)} {
		home := t.TempDir()
		t.Setenv("XDG_CONFIG_HOME", home)
		name := filepath.Join(home, "annuloscope", "state.json")
		os.MkdirAll(filepath.Dir(name), 0o755)
		for round := range 2 { // the second one must not replace the first
			if err := os.WriteFile(name, []byte(damaged), 0o644); err != nil {
				t.Fatal(err)
			}
			var says bytes.Buffer
			s := Streams{Err: &says}
			p, err := (&openCmd{}).program(&s)
			if err != nil {
				t.Fatal(err)
			}
			aside := strings.Replace(name, "state.json", fmt.Sprintf("state-damaged-%d.json", round+1), 1)
			if data, err := os.ReadFile(aside); err != nil || string(data) != damaged {
				t.Errorf("%d: %d bytes set aside of %d: %v", i, len(data), len(damaged), err)
			}
			if text := p.Announcement(); !strings.Contains(text, aside) || !strings.Contains(says.String(), aside) {
				t.Errorf("%d: the screen says %q, the error output %q; neither may leave out %s", i, text, says.String(), aside)
			}
		}
	}
}

// The state of a session is what the next one opens, and a session that did not open it does not destroy it.
func TestRestore(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	begin := func(c openCmd) *program.Program {
		p, err := c.program(&Streams{Err: os.Stderr})
		if err != nil {
			t.Fatal(err)
		}
		p.Tick(0)
		p.Paint(new(draw.List), 1280, 800)
		return p
	}
	turn := func(p *program.Program, v string) {
		if err := p.Act("repair/sinus-band/shortening_mm", v); err != nil {
			t.Fatal(err)
		}
	}
	value := func(p *program.Program) float64 {
		k, _ := p.Desk().S.Knob("repair/sinus-band/shortening_mm")
		return k.Value
	}
	p := begin(openCmd{})
	turn(p, "12")
	p.Desk().P.Theme = "dark"
	if err := p.Close(); err != nil {
		t.Fatal(err)
	}
	if p = begin(openCmd{}); value(p) != 12 || p.Desk().P.Theme != "dark" {
		t.Errorf("restored: %v mm, theme %s", value(p), p.Desk().P.Theme)
	}
	fresh := begin(openCmd{Fresh: true})
	fresh.Close() // nothing was done: nothing is written
	if p = begin(openCmd{}); value(p) != 12 {
		t.Errorf("a session that did nothing left %v mm", value(p))
	}
	fresh = begin(openCmd{Fresh: true})
	turn(fresh, "3")
	fresh.Tick(5)
	if p = begin(openCmd{}); value(p) != 3 {
		t.Errorf("kept %v mm, want the newer session's 3", value(p))
	}
	before, err := os.ReadFile(strings.Replace(newKeeper(os.Stderr).file, "state.json", "state-before.json", 1))
	if err != nil {
		t.Fatal(err)
	}
	var d study.Document
	if json.Unmarshal(before, &d) != nil || !strings.Contains(d.Case, "shortening_mm: 12") {
		t.Errorf("the earlier session's state is %s", before)
	}
}

// faulty starts this test binary again to do one of the things in faults.
func faulty(what ...string) *exec.Cmd {
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), childFault+"="+strings.Join(what, "\n"))
	c.Stderr = os.Stderr
	return c
}
