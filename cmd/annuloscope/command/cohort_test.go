package command

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"annuloscope/sim/valve"
)

func try(args ...string) (code int, out, messages string) {
	var o, e bytes.Buffer
	code = Run(args, Streams{strings.NewReader(""), &o, &e})
	return code, o.String(), e.String()
}

func read(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// The same seed gives the same file and the same words on one thread and on three; another seed does not.
func TestCohortBytesDoNotDependOnThreads(t *testing.T) {
	dir := t.TempDir()
	var files, words []string
	for i, extra := range [][]string{{"--threads=1", "--seed=4"}, {"--threads=3", "--seed=4"}, {"--threads=2", "--seed=5"}} {
		name := filepath.Join(dir, string(rune('a'+i))+".csv")
		code, out, messages := try(append([]string{"cohort", "-n", "30", "--repair", "sinus-band,shortening_mm=15", "-o", name}, extra...)...)
		if code != Done || messages != "" {
			t.Fatalf("code %d: %s", code, messages)
		}
		files, words = append(files, read(t, name)), append(words, out)
	}
	if files[0] != files[1] || words[0] != words[1] {
		t.Error("one and three threads differ")
	}
	if files[0] == files[2] {
		t.Error("two seeds agree")
	}
	if n := strings.Count(files[0], "\n"); n != 34 { // three # lines, one header, 30 rows
		t.Errorf("%d lines", n)
	}
	if !strings.HasPrefix(files[0], "# "+valve.Notice) || !strings.Contains(words[0], valve.Notice) {
		t.Error("the caution is missing")
	}
}

func TestCohortRefusesBadInput(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"-n", "0"}, Usage, "from 1 to"},
		{[]string{"--threads=-1"}, Usage, "--threads"},
		{[]string{"--group", "athletes"}, Usage, "group"},
		{[]string{"--repair", "sinus-band,shortening_mm=400"}, BadCase, "shortening_mm"},
		{[]string{"--repair", "glue"}, BadCase, "glue"},
		{[]string{"-o", filepath.Join(dir, "no", "folder.csv")}, Failed, "folder"},
	} {
		code, out, messages := try(append([]string{"cohort"}, c.args...)...)
		if code != c.code || out != "" || !strings.Contains(messages, c.says) {
			t.Errorf("%v: code %d, out %q, says %q", c.args, code, out, messages)
		}
	}
}

func TestOrderedKeepsOrderAndStopsAtTheFirstError(t *testing.T) {
	var got []int
	start := func() func(int) (int, error) { return func(i int) (int, error) { return i * i, nil } }
	if err := ordered(context.Background(), 200, 4, 8, start, func(i, item int) error {
		got = append(got, item)
		return nil
	}); err != nil || len(got) != 200 {
		t.Fatal(len(got), err)
	}
	for i, v := range got {
		if v != i*i {
			t.Fatalf("item %d is %d", i, v)
		}
	}
	broken := errors.New("broken")
	for name, err := range map[string]error{
		"sink": ordered(context.Background(), 1e6, 3, 6, start, func(i, _ int) error {
			if i == 5 {
				return broken
			}
			return nil
		}),
		"maker": ordered(context.Background(), 1e6, 3, 6, func() func(int) (int, error) {
			return func(i int) (int, error) {
				if i == 7 {
					return 0, broken
				}
				return i, nil
			}
		}, func(int, int) error { return nil }),
	} {
		if !errors.Is(err, broken) {
			t.Errorf("%s: %v", name, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := ordered(ctx, 10, 1, 1, start, func(int, int) error { return nil }); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
