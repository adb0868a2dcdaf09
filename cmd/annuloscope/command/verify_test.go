package command

import (
	"bytes"
	"strings"
	"testing"

	"annuloscope/sim/verify"
)

// A failed exact row gives exit code 1, and the table is still there; a gap of a published row gives 0.
func TestVerifyExitCode(t *testing.T) {
	row := func(kind verify.Kind, v verify.Verdict) verify.Row {
		return verify.Row{Group: "g", Quantity: "q", Unit: "mm", Expected: 1, Ours: 2, Error: 1, Tolerance: 0.1, Verdict: v, Source: "s", Kind: kind}
	}
	for _, c := range []struct {
		rows []verify.Row
		code int
	}{
		{[]verify.Row{row(verify.Exact, verify.Pass), row(verify.Published, verify.Gap), row(verify.Grid, verify.NotAsymptotic)}, Done},
		{[]verify.Row{row(verify.Exact, verify.Fail), row(verify.Exact, verify.Pass)}, Failed},
	} {
		for _, form := range []verifyCmd{{}, {JSON: true}, {Markdown: true}} {
			var o, e bytes.Buffer
			s := Streams{Out: &o, Err: &e}
			out := &buffered{w: &o}
			code := finishError(out, s, form.write(&Streams{Out: out, Err: &e}, c.rows))
			if code != c.code || !strings.Contains(o.String(), string(c.rows[0].Verdict)) || !strings.Contains(o.String(), "Educational only") {
				t.Errorf("%+v: code %d, want %d\n%s%s", form, code, c.code, o.String(), e.String())
			}
		}
	}
}
