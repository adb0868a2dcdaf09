package words_test

import (
	"testing"

	"annuloscope/scenes/present/words"
	"annuloscope/sim/anatomy"
	"annuloscope/sim/repair"
	"annuloscope/sim/valve"
)

// Every label of the definition tables that a screen shows has its German.
func TestTablesAreTranslated(t *testing.T) {
	de := words.For(words.German)
	const none = "\x00"
	check := func(key string) {
		if de.Table(key, none) == none {
			t.Errorf("no German for %q", key)
		}
	}
	for _, q := range valve.Quantities() {
		check("quantity." + q.Path)
	}
	for _, p := range anatomy.Parameters() {
		check("parameter." + p.Path)
	}
	for _, c := range anatomy.Choices() {
		check("choice." + c.Path)
		for _, o := range c.Options {
			check("option." + o)
		}
	}
	for _, s := range repair.Specs() {
		check("repair." + string(s.Kind))
		for _, p := range s.Parameters {
			check("repair." + string(s.Kind) + "." + p.Key)
		}
	}
}
