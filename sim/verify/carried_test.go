package verify_test

import (
	"bytes"
	"flag"
	"os"
	"strings"
	"testing"

	"annuloscope/assets/validation"
	"annuloscope/sim/verify"
)

var write = flag.Bool("write", false, "rewrite assets/validation/validation.json and the README's table")

const readme = "../../README.md"

// split cuts the README into what stands before, in and after its table of disagreements.
func split(t *testing.T, text string) (before, table, after string) {
	t.Helper()
	const head, end = "Where the model disagrees with its sources today:\n\n", "not in asymptotic range.\n"
	i := strings.Index(text, head)
	j := strings.Index(text, end)
	if i < 0 || j < i {
		t.Fatal("README.md has no table of disagreements")
	}
	return text[:i+len(head)], text[i+len(head) : j+len(end)], text[j+len(end):]
}

// The table that the program shows under "What this model does not know", and the README's, are what verify computes now.
func TestTheCarriedTableIsTrue(t *testing.T) {
	c := verify.Carry(verify.Once())
	want := c.JSON()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	before, table, after := split(t, string(text))
	if *write {
		if err := os.WriteFile("../../assets/validation/validation.json", want, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(readme, []byte(before+c.Markdown()+after), 0o644); err != nil {
			t.Fatal(err)
		}
		t.Log("written")
		return
	}
	if !bytes.Equal(validation.Table, want) {
		t.Errorf("the program carries\n%s\nbut verify says\n%s\nrewrite it with: go test ./sim/verify -run TestTheCarriedTableIsTrue -write", validation.Table, want)
	}
	if table != c.Markdown() {
		t.Errorf("the README shows\n%s\nbut verify says\n%s\nrewrite it with: go test ./sim/verify -run TestTheCarriedTableIsTrue -write", table, c.Markdown())
	}
	if c.Gaps != len(c.Disagree)-c.Failed || c.Rows != c.Passed+c.Failed+c.Gaps+c.NotAsymptotic {
		t.Errorf("the counts do not add up: %+v", c)
	}
}

func TestCarriedNumbersAreRounded(t *testing.T) {
	rows := []verify.Row{{Quantity: "a", Unit: "mm", Expected: 11.7, Ours: 15.7466, Error: 4.05, Tolerance: 2.9, Verdict: verify.Gap},
		{Quantity: "b", Unit: "1", Expected: 545, Ours: 381.57, Error: -163, Tolerance: 130, Verdict: verify.Gap}}
	c := verify.Carry(rows)
	if r := c.Disagree[0]; r.Ours != 15.7 || r.Expected != 11.7 || r.Tolerance != 2.9 || r.Unit != "mm" {
		t.Errorf("%+v", r)
	}
	if r := c.Disagree[1]; r.Ours != 382 || r.Expected != 545 || r.Tolerance != 130 || r.Unit != "" {
		t.Errorf("%+v", r)
	}
}
