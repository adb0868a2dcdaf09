package program_test

import (
	"testing"
	"unicode/utf8"

	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
	"annuloscope/sim/casefile"
	"annuloscope/sim/valve"
)

// blank answers every case with an empty report at once.
type blank struct{}

func (blank) Solve(casefile.Case) (valve.Report, error) { return valve.Report{}, nil }

// Whatever stands in an address, the program opens: the case stays valid, something is said, and the state can be shared.
func FuzzOpen(f *testing.F) {
	for _, p := range program.Parameters() {
		f.Add("", p.Example)
	}
	f.Add("case=abc", "lang=de&theme=dark&scale=150&repair=edge-clip&repair=sinus-band,shortening_mm=900")
	f.Add("state=1.AAAA", "set=annulus.height_mm=NaN&set=&=&%zz")
	f.Add("%", ";;&&==\x00\xff")
	all := cases(f)
	f.Fuzz(func(t *testing.T, fragment, query string) {
		p := program.New(program.Config{Runner: study.NewSync(blank{}), Sweeper: func() study.Runner { return study.NewSync(noSweep{}) }, Beside: func() study.Runner { return study.NewSync(noSweep{}) }, Cases: all})
		p.Open(fragment, query)
		if err := p.Desk().S.Case.Validate(); err != nil {
			t.Fatalf("the case is not valid any more: %v", err)
		}
		if !utf8.ValidString(p.Desk().Message) {
			t.Errorf("the message %q is not text", p.Desk().Message)
		}
		if n := utf8.RuneCountInString(p.Desk().Message); n > 1000 {
			t.Errorf("the message has %d characters", n)
		}
		if _, _, err := study.Decode(p.Document().Encode()); err != nil {
			t.Fatalf("the state cannot be shared: %v", err)
		}
	})
}
