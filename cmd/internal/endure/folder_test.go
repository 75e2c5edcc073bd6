//go:build unix

package endure

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
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
	if err := os.Chmod(filepath.Dir(b.dir), 0o755); err != nil { // of all temporary folders of this test
		t.Fatal(err)
	}
	if err := os.Chmod(b.tmp, 0o777); err != nil {
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
	out, err := b.unprivileged(exec.Command(b.program, "--version")).CombinedOutput()
	if err != nil {
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

// began starts an import and waits until it is at work in its folder.
func (b *bed) began(n int) (cmd *exec.Cmd, stderr *bytes.Buffer) {
	b.t.Helper()
	w := b.watch()
	cmd, stderr = b.command(b.importOf(n)...), &bytes.Buffer{}
	cmd.Stderr = stderr
	leave(cmd)
	if err := cmd.Start(); err != nil {
		b.t.Fatal(err)
	}
	b.t.Cleanup(func() { _ = cmd.Process.Kill() }) // it may be stopped
	for limit := time.Now().Add(time.Minute); len(b.watch().generations) == len(w.generations); {
		if time.Now().After(limit) {
			b.t.Fatal("the import does not begin")
		}
	}
	return cmd, stderr
}

// A catalogue whose folder goes away while an import runs is gone, but the import
// says so, and another one makes it anew.
func TestFolderVanishes(t *testing.T) {
	b := newBed(t)
	vanished := 0
	for i := range 6 {
		w := b.watch()
		cmd, stderr := b.began(1 - b.state)
		time.Sleep(time.Duration(i) * b.time / 12)
		b.signal(cmd, syscall.SIGSTOP)
		if w.swapped(b) { // it is as good as over
			b.signal(cmd, syscall.SIGCONT)
			if err := cmd.Wait(); err != nil {
				t.Fatal(err)
			}
			b.state = 1 - b.state
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
	cmd, stderr := b.began(1 - b.state)
	b.signal(cmd, syscall.SIGSTOP)
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
