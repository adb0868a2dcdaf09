package command

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"annuloscope/sim/valve"
)

const childArguments = "ANNULOSCOPE_TEST_ARGUMENTS"

// TestMain is the program itself when another test starts this binary again with childArguments set.
func TestMain(m *testing.M) {
	if args := os.Getenv(childArguments); args != "" {
		os.Exit(Run(strings.Split(args, "\n"), Streams{os.Stdin, os.Stdout, os.Stderr}))
	}
	os.Exit(m.Run())
}

// child makes a process that runs the command line with the arguments and extra environment.
func child(env []string, args ...string) *exec.Cmd {
	c := exec.Command(os.Args[0])
	c.Env = append(append(os.Environ(), env...), childArguments+"="+strings.Join(args, "\n"))
	return c
}

// planned writes a manifest of n × 3 rows, of which those with a far anchor at 125 mm fail, and the file of one whole run.
func planned(t *testing.T, n int) (manifest, want, dir string) {
	t.Helper()
	dir = t.TempDir()
	manifest = filepath.Join(dir, "m.yaml")
	code, out, messages := try("sweep", "plan", "functional", "--repair", "sinus-band", "--axis", fmt.Sprintf("repair.1.shortening_mm=5:25:%d", n),
		"--axis", "repair.1.distal_mm=80,90,125", "-o", manifest)
	if code != Done || !strings.Contains(out, fmt.Sprint(3*n, " rows")) || !strings.Contains(read(t, manifest), valve.Notice) {
		t.Fatalf("plan: code %d: %s%s", code, out, messages)
	}
	whole := filepath.Join(dir, "whole.csv")
	code, out, messages = try("sweep", "run", manifest, "-o", whole)
	if code != Done || messages != "" {
		t.Fatalf("run: code %d: %s", code, messages)
	}
	if !strings.Contains(out, fmt.Sprint(n, " of them without a solution")) || !strings.Contains(out, "beyond the end of the vein") {
		t.Errorf("failed rows are not counted with their reason: %s", out)
	}
	return manifest, read(t, whole), dir
}

func TestSweepThreadsGiveTheSameBytes(t *testing.T) {
	manifest, want, dir := planned(t, 5)
	name := filepath.Join(dir, "threads.csv")
	if code, _, messages := try("sweep", "run", manifest, "--threads", "3", "-o", name); code != Done || read(t, name) != want {
		t.Errorf("code %d, same bytes %v: %s", code, read(t, name) == want, messages)
	}
	if !strings.HasPrefix(want, "# "+valve.Notice) {
		t.Error("the caution is missing")
	}
	if code, _, messages := try("sweep", "run", manifest, "-o", name); code != Failed || !strings.Contains(messages, "--resume") {
		t.Errorf("an existing file is overwritten: code %d: %s", code, messages)
	}
}

// The recipe for a scheduler's array: parallel processes told apart by the array variables only, then merge.
func TestSweepAsAnArrayOfProcesses(t *testing.T) {
	manifest, want, dir := planned(t, 4)
	var jobs []*exec.Cmd
	var files []string
	for i := 1; i <= 3; i++ {
		name := filepath.Join(dir, fmt.Sprintf("part-%d.csv", i))
		files = append(files, name)
		c := child([]string{fmt.Sprint("SLURM_ARRAY_TASK_ID=", i), "SLURM_ARRAY_TASK_MIN=1", "SLURM_ARRAY_TASK_COUNT=3"}, "sweep", "run", manifest, "--resume", "-o", name)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		jobs = append(jobs, c)
	}
	for _, c := range jobs {
		if err := c.Wait(); err != nil {
			t.Fatal(err)
		}
	}
	merged := filepath.Join(dir, "merged.csv")
	code, out, messages := try(append([]string{"sweep", "merge", "-o", merged}, files...)...)
	if code != Done || read(t, merged) != want {
		t.Errorf("code %d, same bytes %v: %s%s", code, read(t, merged) == want, out, messages)
	}
	code, out, messages = try("sweep", "merge", "-o", merged, files[0], files[2])
	if code != Failed || out != "" || !strings.Contains(messages, "4 of 12 rows are missing") || read(t, merged) != want {
		t.Errorf("a merge with a missing shard: code %d: %s", code, messages)
	}
}

// A killed run keeps every row that stood in its file, and --resume ends with the bytes of an undisturbed run.
func TestSweepSurvivesKill(t *testing.T) {
	manifest, want, dir := planned(t, 15)
	name := filepath.Join(dir, "killed.csv")
	c := child(nil, "sweep", "run", manifest, "-o", name)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	head := strings.Count(want, "\n") - 45
	seen := 0
	for deadline := time.Now().Add(20 * time.Second); time.Now().Before(deadline) && seen < 5; time.Sleep(2 * time.Millisecond) {
		if data, err := os.ReadFile(name); err == nil {
			seen = strings.Count(string(data), "\n") - head
		}
	}
	if err := c.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = c.Wait() // killed
	left := read(t, name)
	rows := strings.Count(left, "\n") - head
	if seen < 5 || rows < seen || rows >= 45 || !strings.HasPrefix(want, left) {
		t.Fatalf("%d rows seen, %d rows left", seen, rows)
	}
	if err := os.WriteFile(name, []byte(left+"99,8"), 0o644); err != nil { // and a row cut short on top
		t.Fatal(err)
	}
	code, out, messages := try("sweep", "run", manifest, "--resume", "-o", name)
	if code != Done || read(t, name) != want || !strings.Contains(out, "45 rows, 15 of them") {
		t.Errorf("code %d, same bytes %v: %s%s", code, read(t, name) == want, out, messages)
	}
}

func TestSweepRefusesBadInput(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "m.yaml")
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"plan", "functional", "-o", out}, Usage, "--axis"},
		{[]string{"plan", "functional", "--axis", "annulus.height_mm", "-o", out}, BadCase, "path=from:to:count"},
		{[]string{"plan", "functional", "--axis", "annulus.height_mm=low:high:3", "-o", out}, BadCase, "path=from:to:count"},
		{[]string{"plan", "functional", "--axis", "annulus.height_mm=1:2:2.5", "-o", out}, BadCase, "path=from:to:count"},
		{[]string{"plan", "functional", "--axis", "annulus.height_mm=1:2", "-o", out}, BadCase, "count"},
		{[]string{"plan", "functional", "--axis", "annulus.height_mm=1:99:3", "-o", out}, BadCase, "0 to 14 mm"},
		{[]string{"plan", "functional", "--axis", "mechanism=1,2", "-o", out}, BadCase, "no such parameter"},
		{[]string{"plan", "functional", "--axis", "repair.1.width_mm=3,4", "-o", out}, BadCase, "no such repair step"},
		{[]string{"plan", "functional", "--axis", "annulus.height_mm=1:2", "--sample", "halton", "-o", out}, BadCase, "rows"},
		{[]string{"plan", "functional", "--axis", "annulus.height_mm=1:2", "--sample", "dice", "-o", out}, Usage, "dice"},
		{[]string{"run", filepath.Join(dir, "none.yaml"), "-o", out}, Failed, "none.yaml"},
		{[]string{"merge", filepath.Join(dir, "none.csv"), "-o", out}, Failed, "none.csv"},
	} {
		code, stdout, messages := try(append([]string{"sweep"}, c.args...)...)
		if code != c.code || stdout != "" || !strings.Contains(messages, c.says) {
			t.Errorf("%v: code %d, out %q, says %q", c.args, code, stdout, messages)
		}
		if _, err := os.Stat(out); err == nil {
			t.Fatalf("%v: a file was written", c.args)
		}
	}
	manifest, _, dir := planned(t, 2)
	for _, bad := range [][]string{{"--shard", "3/2"}, {"--threads=-3"}} {
		if code, _, _ := try(append([]string{"sweep", "run", manifest, "-o", filepath.Join(dir, "x.csv")}, bad...)...); code != BadCase && code != Usage {
			t.Errorf("%v: code %d", bad, code)
		}
	}
}
