package words_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"testing"

	"annuloscope/scenes/present/words"
)

var gaps = regexp.MustCompile(`\{[a-z0-9]+`)

func TestEveryLanguageHasEveryMessageWithTheSameGaps(t *testing.T) {
	en, de := words.Catalogues()
	for k, v := range en {
		g, ok := de[k]
		if !ok {
			t.Errorf("German lacks %q", k)
			continue
		}
		a, b := gaps.FindAllString(v, -1), gaps.FindAllString(g, -1)
		sort.Strings(a)
		sort.Strings(b)
		if strings.Join(a, " ") != strings.Join(b, " ") {
			t.Errorf("%s: gaps %v in English, %v in German", k, a, b)
		}
	}
	for k := range de {
		if _, ok := en[k]; !ok {
			t.Errorf("English lacks %q", k)
		}
	}
}

// Every key that the screens name in their source must exist.
func TestEveryKeyUsedExists(t *testing.T) {
	used := regexp.MustCompile(`\.[TF]\("([^"]+)"[,)]`)
	w, n := words.For(words.English), 0
	files, _ := filepath.Glob("../*/*.go")
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range used.FindAllStringSubmatch(string(src), -1) {
			n++
			if !w.Has(m[1]) {
				t.Errorf("%s uses %q, which is in no catalogue", f, m[1])
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d uses found: the search is broken", n)
	}
}

func TestGapsAndPlurals(t *testing.T) {
	w := words.For(words.English)
	for _, c := range []struct {
		n    int
		want string
	}{{1, "one orifice"}, {2, "2 orifices"}} {
		if got := w.F("say.clip", "place", "A2-P2", "width", "5 mm", "leak", "L", "a", "4", "b", "2", "n", c.n, "gradient", ""); !strings.Contains(got, c.want) {
			t.Errorf("%d: %q lacks %q", c.n, got, c.want)
		}
	}
	if got := w.T("no.such"); got != "«no.such»" {
		t.Error(got)
	}
	if got := w.F("label.gap"); !strings.Contains(got, "«mm»") {
		t.Errorf("a forgotten gap must be seen: %q", got)
	}
}

func TestNumbers(t *testing.T) {
	en, de := words.For(words.English), words.For(words.German)
	for _, c := range []struct{ got, want string }{
		{en.Num(-1.25, 1), "−1.2"}, {de.Num(3.14, 2), "3,14"}, {en.Num(-0.001, 1), "0.0"}, {en.Num(math.NaN(), 1), "–"},
		{en.Signed(0.3, 1), "+0.3"}, {en.Signed(0.001, 1), "±0.0"}, {en.Signed(-2, 0), "−2"}, {en.With(5, 0, "mm"), "5\u00a0mm"}, {en.With(5, 0, "1"), "5"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	for text, want := range map[string]float64{"3,5": 3.5, "−2": -2, "-2.5": -2.5, " 7 ": 7} {
		if v, ok := en.Parse(text); !ok || v != want {
			t.Errorf("%q read as %v %v", text, v, ok)
		}
	}
	for _, bad := range []string{"", "x", "NaN", "inf", "1e999", "--1"} {
		if _, ok := en.Parse(bad); ok {
			t.Errorf("%q accepted", bad)
		}
	}
}

func TestDoubleIsAboutTwiceAsLong(t *testing.T) {
	en, d := words.For(words.English), words.For(words.Double)
	cat, _ := words.Catalogues()
	whole := regexp.MustCompile(`\{[^}]*\}`) // a gap counts as what may stand in it, not as its name
	for k := range cat {
		a, b := len([]rune(whole.ReplaceAllString(en.T(k), "xx"))), len([]rune(whole.ReplaceAllString(d.T(k), "xx")))
		if float64(b) < 1.5*float64(a) {
			t.Errorf("%s: %d after %d", k, b, a)
		}
	}
}
