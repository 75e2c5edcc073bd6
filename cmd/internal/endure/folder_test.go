//go:build unix

package endure

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// nobody is a user and group that own nothing.
const nobody = 65534

// unprivileged makes a command one of somebody who may only read: of nobody, where
// this test is run by the superuser, who may write everywhere.
func (b *bed) unprivileged(cmd *exec.Cmd) *exec.Cmd {
	if os.Getuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody, NoSetGroups: true}}
	}
	return cmd
}

// readOnly takes the right to write away from everything in the catalogue's
// folder, and lets others look into it.
func (b *bed) readOnly(t *testing.T) {
	t.Helper()
	err := errors.Join(
		os.Chmod(filepath.Dir(b.dir), 0o755), // of all temporary folders of this test
		os.Chmod(b.dir, 0o755), os.Chmod(b.tmp, 0o777), os.Chmod(b.lists[0], 0o644), os.Chmod(b.lists[1], 0o644))
	if err != nil {
		t.Fatal(err)
	}
	mode := func(write fs.FileMode) {
		err := filepath.WalkDir(b.cat, func(path string, e fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if e.IsDir() {
				return os.Chmod(path, 0o555|write)
			}
			return os.Chmod(path, 0o444|write)
		})
		if err != nil {
			t.Error(err)
		}
	}
	mode(0)
	t.Cleanup(func() { mode(0o200) })
	if out, err := b.unprivileged(exec.Command(b.program, "--version")).CombinedOutput(); err != nil {
		t.Skipf("SKIPPED the read-only folder: the program cannot be run by somebody else: %v: %s", err, out)
	}
}

// Whoever may only read can read everything, and is told what is not allowed.
func TestReadOnlyFolder(t *testing.T) {
	b := newBed(t)
	b.readOnly(t)
	for _, args := range [][]string{{"search", "winter", "-q", "--format", "json"}, {"catalog"}, {"catalog", "check"}, {"show", "LX-500"}} {
		if _, stderr, code := b.finish(b.unprivileged(b.command(args...))); code != 0 {
			t.Errorf("lowsone %v in a read-only folder: exit %d: %s", args, code, stderr)
		}
	}
	for _, args := range [][]string{b.importOf(1 - b.state), {"catalog", "forget", "list"}, {"catalog", "repair"}} {
		_, stderr, code := b.finish(b.unprivileged(b.command(args...)))
		if code != 1 || !strings.HasPrefix(stderr, "lowsone: ") || !strings.Contains(stderr, "permission denied") || strings.Count(stderr, "\n") > 2 {
			t.Errorf("lowsone %v in a read-only folder: exit %d, stderr %q", args, code, stderr)
		}
	}
	cmd := b.unprivileged(b.command(b.importOf(0)...))
	cmd.Args[2] = filepath.Join(b.cat, "new")
	if _, stderr, code := b.finish(cmd); code != 1 || !strings.Contains(stderr, "permission denied") {
		t.Errorf("a new catalogue in a read-only folder: exit %d, stderr %q", code, stderr)
	}
	if state := b.whole(); state != b.state {
		t.Errorf("afterwards it answers as list %d, want %d", state, b.state)
	}
}

// began starts an import, waits until it is at work in its folder and then a while
// more, and stops it. On a busy machine it may have replaced the pointer before: that
// is told, and it is brought to its end.
func (b *bed) began(n int, more time.Duration) (cmd *exec.Cmd, stderr *bytes.Buffer, atWork bool) {
	b.t.Helper()
	w := b.watch()
	cmd, stderr = b.command(b.importOf(n)...), &bytes.Buffer{}
	cmd.Stderr = stderr
	leave(cmd)
	if err := cmd.Start(); err != nil {
		b.t.Fatal(err)
	}
	b.t.Cleanup(func() { _ = cmd.Process.Kill() }) // it may be stopped
	for limit := time.Now().Add(time.Minute); slices.Equal(b.watch().generations, w.generations); {
		if time.Now().After(limit) {
			b.t.Fatal("the import does not begin")
		}
	}
	time.Sleep(more)
	status := b.stop(cmd)
	if status.Stopped() && !w.swapped(b) {
		return cmd, stderr, true
	}
	b.signal(cmd, syscall.SIGCONT)
	if err := cmd.Wait(); status.Stopped() && err != nil || !status.Stopped() && status != 0 {
		b.t.Fatalf("an import that was as good as over: %v, %v: %s", status, err, stderr)
	}
	b.state = n
	return cmd, stderr, false
}

// stop stops a program and waits until it stands still: what it has just asked of
// the disk is done first. A program that is over comes out as its exit status.
func (b *bed) stop(cmd *exec.Cmd) (status syscall.WaitStatus) {
	b.t.Helper()
	b.signal(cmd, syscall.SIGSTOP)
	for {
		switch _, err := syscall.Wait4(cmd.Process.Pid, &status, syscall.WUNTRACED, nil); {
		case err == nil:
			return status
		case !errors.Is(err, syscall.EINTR):
			b.t.Fatal(err)
		}
	}
}

// A catalogue whose folder goes away while an import runs is gone, but the import
// says so, and another one makes it anew.
func TestFolderVanishes(t *testing.T) {
	b := newBed(t)
	vanished := 0
	for i := range 6 {
		cmd, stderr, atWork := b.began(1-b.state, time.Duration(i)*b.time/12)
		if !atWork {
			continue
		}
		vanished++
		if err := os.RemoveAll(b.cat); err != nil {
			t.Fatal(err)
		}
		b.signal(cmd, syscall.SIGCONT)
		if err := cmd.Wait(); err == nil || !strings.HasPrefix(stderr.String(), "lowsone: ") ||
			!strings.Contains(stderr.String(), "is gone") || strings.Count(stderr.String(), "\n") > 2 {
			t.Errorf("an import whose folder vanished: %v, stderr %q", err, stderr)
		}
		b.mustImport(b.state)
		if state := b.whole(); state != b.state {
			t.Errorf("after another import it answers as list %d, want %d", state, b.state)
		}
		b.swept()
	}
	if vanished == 0 {
		t.Error("no import was still at work when its folder vanished")
	}
}

// signal sends a signal to a program that may be over.
func (b *bed) signal(cmd *exec.Cmd, s os.Signal) {
	b.t.Helper()
	if err := cmd.Process.Signal(s); err != nil && !errors.Is(err, os.ErrProcessDone) {
		b.t.Fatal(err)
	}
}

// Of two imports at once the second is refused and told who is at work; the first
// comes to its end, and whoever reads is not kept waiting.
func TestTwoImports(t *testing.T) {
	b := newBed(t)
	cmd, stderr, atWork := b.began(1-b.state, 0)
	for tries := 1; !atWork; tries++ {
		if tries == 10 {
			t.Fatal("no import could be stopped at work")
		}
		cmd, stderr, atWork = b.began(1-b.state, 0)
	}
	for _, args := range [][]string{b.importOf(b.state), {"catalog", "forget", "list"}, {"catalog", "repair"}} {
		_, said, code := b.run(args...)
		if code != 1 || !strings.Contains(said, "another import into") || !strings.Contains(said, "hint: wait until it is done") {
			t.Errorf("lowsone %v beside an import: exit %d, stderr %q", args, code, said)
		}
	}
	if state := b.whole(); state != b.state {
		t.Errorf("beside an import it answers as list %d, want %d", state, b.state)
	}
	b.signal(cmd, syscall.SIGCONT)
	if err := cmd.Wait(); err != nil {
		t.Fatalf("the first import: %v: %s", err, stderr)
	}
	if state := b.whole(); state != 1-b.state {
		t.Errorf("afterwards it answers as list %d, want %d", state, 1-b.state)
	}
	b.swept()
}
