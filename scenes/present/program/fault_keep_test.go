package program_test

import (
	"errors"
	"strings"
	"testing"

	"annuloscope/scenes/present/program"
	"annuloscope/scenes/present/study"
)

// disk is a keeper that can be full.
type disk struct {
	full  bool
	asked int
	holds []byte
}

func (d *disk) Keep(document []byte) error {
	d.asked++
	if d.full {
		return errors.New("no space left on device")
	}
	d.holds = append(d.holds[:0], document...)
	return nil
}

// A full disk is said once, the work goes on, it is tried again, and the end of the trouble is said too.
func TestKeepingIsTriedAgain(t *testing.T) {
	d := &disk{full: true}
	p := program.New(program.Config{Runner: study.NewSync(remembered{}), Sweeper: func() study.Runner { return study.NewSync(noSweep{}) }, Cases: cases(t), Keeper: d})
	settle(p)
	paint(p, 1280, 800)
	now := 0.0
	wait := func(seconds float64) {
		for end := now + seconds; now < end; now += 0.25 {
			p.Tick(now)
		}
	}
	wait(5)
	if d.asked != 0 {
		t.Fatal("a session in which nothing was done writes")
	}
	turn(t, p, shortening, 12)
	wait(5)
	if text := p.Announcement(); !strings.Contains(text, "no space left") || !strings.Contains(text, "stays on the screen") || !p.Desk().Bad {
		t.Errorf("a full disk is announced by %q", text)
	}
	p.Desk().Message = ""
	wait(40)
	if d.asked < 4 || d.asked > 6 || p.Desk().Message != "" {
		t.Errorf("in 45 s asked %d times; message %q", d.asked, p.Desk().Message)
	}
	if p.Close() == nil {
		t.Error("closing does not tell that the last changes are lost")
	}
	d.full = false
	wait(12)
	if text := p.Announcement(); !strings.Contains(text, "kept again") {
		t.Errorf("room again: %q", text)
	}
	if got, _, err := study.Decode(d.holds); err != nil || got.Open.Repairs[0].Value("shortening_mm") != 12 {
		t.Errorf("kept: %v %v", got.Open.Repairs, err)
	}
	n := d.asked
	wait(60)
	p.Close()
	if d.asked != n {
		t.Errorf("%d more savings although nothing changed", d.asked-n)
	}
	p.Desk().P.Theme = "dark" // settings are work too
	if err := p.Close(); err != nil || !strings.Contains(string(d.holds), `"dark"`) {
		t.Errorf("closing did not keep the settings: %v", err)
	}
}
