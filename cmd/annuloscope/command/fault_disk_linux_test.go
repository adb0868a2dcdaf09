package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// mustKeep ends the child when the state is not kept as expected. It returns the error of the saving.
func mustKeep(k *keeper, n int, works bool) error {
	err := k.Keep(state(n))
	if (err == nil) != works {
		fmt.Printf("keeping state %d: %v\n", n, err)
		os.Exit(1)
	}
	return err
}

// mustHold ends the child when the folder holds anything but state n.
func mustHold(k *keeper, n int) {
	data, err := os.ReadFile(k.file)
	if err != nil || !bytes.Equal(data, state(n)) {
		fmt.Printf("the file does not hold state %d but %d bytes (%v)\n", n, len(data), err)
		os.Exit(1)
	}
	if all, err := os.ReadDir(filepath.Dir(k.file)); err != nil || len(all) != 1 {
		fmt.Printf("left in the folder: %v (%v)\n", all, err)
		os.Exit(1)
	}
}

// onSmallDisk fills a disk of its own (64 kB, in this child's own mount namespace).
func onSmallDisk(home string) {
	if err := syscall.Mount("none", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, ""); err != nil {
		fmt.Println("no mount:", err)
		return
	}
	if err := syscall.Mount("tmpfs", home, "tmpfs", 0, "size=64k"); err != nil {
		fmt.Println("no mount:", err)
		return
	}
	k := newKeeper(os.Stderr)
	mustKeep(k, 1, true)
	ballast := filepath.Join(home, "ballast")
	os.WriteFile(ballast, bytes.Repeat([]byte("x"), 64<<10), 0o600) // as much of it as there is room for
	err := mustKeep(k, 2, false)
	mustHold(k, 1)
	mustKeep(k, 3, false) // says nothing more
	os.Remove(ballast)
	mustKeep(k, 4, true)
	mustHold(k, 4)
	fmt.Println("done:", err)
}

// withSizeLimit lets no file of this child grow beyond 512 bytes for a while.
func withSizeLimit() {
	k := newKeeper(os.Stderr)
	mustKeep(k, 1, true)
	var was syscall.Rlimit
	syscall.Getrlimit(syscall.RLIMIT_FSIZE, &was)
	syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 512, Max: was.Max})
	err := mustKeep(k, 2, false)
	syscall.Setrlimit(syscall.RLIMIT_FSIZE, &was)
	mustHold(k, 1)
	mustKeep(k, 4, true)
	mustHold(k, 4)
	fmt.Println("done:", err)
}

// inReadOnlyFolder finds a state that it may read but not replace.
func inReadOnlyFolder() {
	k := newKeeper(os.Stderr)
	if document, damaged := k.kept(); damaged != "" || !bytes.Equal(document, state(1)) {
		fmt.Printf("the state cannot be read: %q\n", damaged)
		os.Exit(1)
	}
	err := mustKeep(k, 2, false)
	mustHold(k, 1)
	fmt.Println("done:", err)
}

// actFault does what a child is told to do, by name.
func actFault(what []string) {
	switch what[0] {
	case "keep-forever":
		var first int
		fmt.Sscan(what[1], &first)
		keepForever(first)
	case "small-disk":
		onSmallDisk(what[1])
	case "size-limit":
		withSizeLimit()
	case "read-only":
		inReadOnlyFolder()
	}
}

const childFault = "ANNULOSCOPE_TEST_FAULT"

// init turns this binary into a child before any test begins.
func init() {
	if what := os.Getenv(childFault); what != "" {
		actFault(strings.Split(what, "\n"))
		os.Exit(0)
	}
}

// A full disk: the old state stays whole, nothing half-written is left, one message names the file and the reason, and
// when there is room again the state is kept again.
func TestDiskFull(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", home)
	c := faulty("small-disk", home)
	c.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
		UidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}},
		GidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}}}
	var says bytes.Buffer
	c.Stderr = &says
	out, err := c.Output()
	switch {
	case err != nil && len(out) == 0 || strings.HasPrefix(string(out), "no mount"):
		t.Logf("no small disk can be made here (%v %s); the limit on a file's size stands for it", err, out)
	case err != nil || !strings.Contains(string(out), syscall.ENOSPC.Error()):
		t.Errorf("%v: %s", err, out)
	case strings.Count(says.String(), "\n") != 1 || !strings.Contains(says.String(), "state.json") || !strings.Contains(says.String(), syscall.ENOSPC.Error()):
		t.Errorf("the message is %q", says.String())
	}

	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	c = faulty("size-limit")
	says.Reset()
	c.Stderr = &says
	if out, err := c.Output(); err != nil || !strings.Contains(string(out), syscall.EFBIG.Error()) || strings.Count(says.String(), "\n") != 1 {
		t.Errorf("file size limit: %v: %s, says %q", err, out, says.String())
	}
}

// A folder that may be read but not written: what is there is opened, and stays.
func TestReadOnlyFolder(t *testing.T) {
	home, err := os.MkdirTemp("", "annuloscope-read-only-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(home) })
	t.Setenv("XDG_CONFIG_HOME", home)
	if err := newKeeper(os.Stderr).Keep(state(1)); err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(home, "annuloscope")
	os.Chmod(home, 0o755)
	os.Chmod(folder, 0o555)
	defer os.Chmod(folder, 0o755)
	c := faulty("read-only")
	c.Path = "/proc/self/exe"
	if os.Getuid() == 0 { // to whom no folder is read-only
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534, NoSetGroups: true}}
	}
	var says bytes.Buffer
	c.Stderr = &says
	if out, err := c.Output(); err != nil || !strings.Contains(string(out), syscall.EACCES.Error()) || strings.Count(says.String(), "\n") != 1 {
		t.Errorf("%v: %s, says %q", err, out, says.String())
	}
}
