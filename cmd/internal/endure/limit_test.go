//go:build linux

package endure

import (
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Variables of a process of this test that becomes the program, with a limit to
// the size of any file it writes.
const (
	limitVar   = "LOWSONE_ENDURE_LIMIT"
	programVar = "LOWSONE_ENDURE_PROGRAM"
)

// limited makes this process the program with limited files, if it was started
// for that.
func limited() bool {
	text := os.Getenv(limitVar)
	if text == "" {
		return false
	}
	err := func() error {
		bytes, err := strconv.ParseUint(text, 10, 64)
		if err != nil {
			return err
		}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: bytes, Max: bytes}); err != nil {
			return err
		}
		path := os.Getenv(programVar)
		return syscall.Exec(path, append([]string{path}, os.Args[1:]...), os.Environ())
	}()
	fmt.Fprintln(os.Stderr, "endure:", err)
	os.Exit(70)
	return true
}

// leave has a program end with this test, even where it is stopped then.
func leave(cmd *exec.Cmd) { cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL} }

// pause sleeps, which time.Sleep does for a millisecond and more.
func pause(d time.Duration) {
	t := syscall.NsecToTimespec(d.Nanoseconds())
	_ = syscall.Nanosleep(&t, nil) // woken sooner is no harm
}

// inMemory says whether a folder is on a disk in memory, where a sync takes no time.
func inMemory(dir string) bool {
	const tmpfs = 0x01021994 // linux/magic.h
	var disk syscall.Statfs_t
	return syscall.Statfs(dir, &disk) == nil && int64(disk.Type) == tmpfs
}

// limit gives a command whose files cannot grow beyond so many bytes.
func (b *bed) limit(bytes int, args ...string) *exec.Cmd {
	cmd := b.command(args...)
	cmd.Env = append(cmd.Env, limitVar+"="+strconv.Itoa(bytes), programVar+"="+b.program)
	cmd.Path = os.Args[0]
	return cmd
}

// An import whose files cannot grow says so and changes nothing, wherever that
// happens.
func TestFilesCannotGrow(t *testing.T) {
	b := newBed(t)
	refused := 0
	for _, bytes := range []int{0, 10, 25, 100, 1000, 5000, 20_000, 32_768, 50_000, 100_000, 200_000, 500_000, 10_000_000} {
		_, stderr, code := b.finish(b.limit(bytes, b.importOf(1-b.state)...))
		if code == 0 {
			b.state = 1 - b.state
		} else {
			refused++
			b.wantMessage(fmt.Sprintf("files of %d bytes at the most", bytes), stderr, code, syscall.EFBIG.Error())
		}
		b.wantUntouched(fmt.Sprintf("files of %d bytes at the most", bytes))
	}
	if refused < 5 || refused == 13 {
		t.Errorf("%d of 13 limits were too narrow: they say nothing", refused)
	}
	b.mustImport(1 - b.state)
	b.wantUntouched("afterwards")
}

// wantMessage fails unless a command failed with a message of one line, a hint at
// the most, and the reason in it.
func (b *bed) wantMessage(what, stderr string, code int, reasons ...string) {
	b.t.Helper()
	said := false
	for _, reason := range reasons {
		said = said || strings.Contains(stderr, reason)
	}
	lines := strings.Split(strings.TrimSpace(stderr), "\n")
	if code != 1 || !said || !strings.HasPrefix(stderr, "lowsone: ") || len(lines) > 2 || len(lines) == 2 && !strings.HasPrefix(lines[1], "hint: ") {
		b.t.Errorf("%s: exit %d, stderr %q, want exit 1 and a line with %q", what, code, stderr, reasons)
	}
}

// wantUntouched fails unless the catalogue answers as it should and nothing is
// left beside it.
func (b *bed) wantUntouched(what string) {
	b.t.Helper()
	if state := b.whole(); state != b.state {
		b.t.Errorf("%s: the catalogue answers as list %d, want %d", what, state, b.state)
	}
	b.swept()
}

// small mounts a disk of so many bytes on the folder of the catalogue.
func (b *bed) small(bytes int) {
	b.t.Helper()
	if err := os.RemoveAll(b.cat); err != nil {
		b.t.Fatal(err)
	}
	if err := os.Mkdir(b.cat, 0o755); err != nil {
		b.t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", b.cat, "tmpfs", 0, fmt.Sprintf("size=%d", bytes)); err != nil {
		b.t.Skipf("SKIPPED the full disk: mounting a small one takes more rights: %v", err)
	}
	b.t.Cleanup(func() {
		if err := syscall.Unmount(b.cat, 0); err != nil {
			b.t.Error(err)
		}
	})
	b.mustImport(0)
}

// An import onto a full disk says so and changes nothing, however much room is
// left; once there is room again it works.
func TestDiskFull(t *testing.T) {
	b := newBed(t)
	b.small(8 << 20)
	filler := b.cat + "/filler"
	refused := 0
	rooms := []int{0, 4 << 10, 12 << 10, 40 << 10, 80 << 10, 120 << 10, 200 << 10, 400 << 10, 2 << 20}
	for _, room := range rooms {
		b.fill(filler, room)
		_, stderr, code := b.run(b.importOf(1 - b.state)...)
		what := fmt.Sprintf("%d bytes of room", room)
		if code == 0 {
			b.state = 1 - b.state
		} else {
			refused++
			b.wantMessage(what, stderr, code, syscall.ENOSPC.Error())
		}
		if err := os.Remove(filler); err != nil {
			t.Fatal(err)
		}
		b.wantUntouched(what)
	}
	if refused < 3 || refused == len(rooms) {
		t.Errorf("%d of %d rooms were too narrow: they say nothing", refused, len(rooms))
	}
	b.mustImport(1 - b.state)
	b.wantUntouched("afterwards")
}

// fill fills the disk up to so many bytes.
func (b *bed) fill(path string, room int) {
	b.t.Helper()
	var disk syscall.Statfs_t
	if err := syscall.Statfs(b.cat, &disk); err != nil {
		b.t.Fatal(err)
	}
	free := int(disk.Bavail) * int(disk.Bsize)
	if err := os.WriteFile(path, make([]byte, max(0, free-room)), 0o644); err != nil {
		b.t.Fatal(err)
	}
}
