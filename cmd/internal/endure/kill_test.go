//go:build unix

package endure

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// kills is how often TestKilled kills: LOWSONE_ENDURE_KILLS, or few.
func kills(t *testing.T) int {
	text := os.Getenv("LOWSONE_ENDURE_KILLS")
	if text == "" {
		return 10
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		t.Fatalf("LOWSONE_ENDURE_KILLS=%s is no number of kills", text)
	}
	return n
}

// aims are the moments to kill at: what must stand in the folder. Any moment takes
// nothing: a while passes, and the import is killed in its run.
var aims = []struct {
	name string
	come func(b *bed, w *watch) bool
}{
	{"any moment", nil},
	{"the new catalogue is complete", func(b *bed, w *watch) bool { return w.complete(b) }},
	{"the pointer is about to be replaced", func(b *bed, w *watch) bool { return w.pointing(b) || w.swapped(b) }},
	{"the pointer has been replaced", func(b *bed, w *watch) bool { return w.swapped(b) }},
}

// watch looks at the folder of a catalogue while an import runs.
type watch struct {
	pointer     string
	generations []string
}

func (b *bed) watch() *watch {
	w := &watch{pointer: b.pointer()}
	for _, name := range b.names(b.cat) {
		if strings.HasPrefix(name, "gen-") {
			w.generations = append(w.generations, name)
		}
	}
	return w
}

func (b *bed) pointer() string {
	content, _ := os.ReadFile(filepath.Join(b.cat, "CURRENT"))
	return string(content)
}

// complete says whether a new generation has its manifest, which is written last.
func (w *watch) complete(b *bed) bool {
	found, _ := filepath.Glob(filepath.Join(b.cat, "gen-*", "manifest.json"))
	return slices.ContainsFunc(found, func(path string) bool {
		return !slices.Contains(w.generations, filepath.Base(filepath.Dir(path)))
	})
}

func (w *watch) pointing(b *bed) bool {
	found, _ := filepath.Glob(filepath.Join(b.cat, "CURRENT.new-*"))
	return len(found) > 0
}

func (w *watch) swapped(b *bed) bool { return b.pointer() != w.pointer }

// hit is what a killed import had come to.
type hit string

// What an import has come to when it is killed.
const (
	missed   hit = "over before the kill"
	building hit = "before the new catalogue was complete"
	before   hit = "between complete and swapped"
	after    hit = "after the swap"
)

// kill imports the other list, kills the import at a moment, and says what it had
// come to.
func (b *bed) kill(aim int, r *rand.Rand) hit {
	b.t.Helper()
	w := b.watch()
	cmd := b.command(b.importOf(1 - b.state)...)
	leave(cmd)
	if err := cmd.Start(); err != nil {
		b.t.Fatal(err)
	}
	var status syscall.WaitStatus
	if aim == 0 {
		time.Sleep(time.Duration(r.Int64N(int64(b.time))))
		status = b.end(cmd)
	} else if status = b.bring(cmd, w, aim, r); status.Stopped() {
		status = b.end(cmd)
	}
	switch {
	case !status.Signaled() && status.ExitStatus() != 0:
		b.t.Fatalf("the import failed by itself: exit %d", status.ExitStatus())
	case !status.Signaled():
		return missed
	case w.swapped(b):
		return after
	case w.complete(b):
		return before
	}
	return building
}

// end kills a program, and says how it ended.
func (b *bed) end(cmd *exec.Cmd) syscall.WaitStatus {
	b.t.Helper()
	if err := cmd.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
		b.t.Fatal(err)
	}
	_ = cmd.Wait() // it was killed
	return cmd.ProcessState.Sys().(syscall.WaitStatus)
}

// step is how long an import runs between two looks at what it has come to: the
// swap takes milliseconds, as it waits for the disk.
const step = 20 * time.Microsecond

// bring lets an import run in steps until it stands still at a moment, or one or
// two steps later. An import that is over before comes out as its exit status.
func (b *bed) bring(cmd *exec.Cmd, w *watch, aim int, r *rand.Rand) syscall.WaitStatus {
	b.t.Helper()
	later := max(0, r.IntN(5)-2)
	for come := false; ; pause(step) {
		status := b.stop(cmd)
		if !status.Stopped() {
			_ = cmd.Wait() // stop has its status
			return status
		}
		if come = come || aims[aim].come(b, w); come {
			if later == 0 {
				return status
			}
			later--
		}
		b.signal(cmd, syscall.SIGCONT)
	}
}

// A killed import leaves the catalogue as the old or as the new one, whole, and
// the next import works and sweeps. At least a third of the kills is aimed at the
// swap; where they hit is counted.
func TestKilled(t *testing.T) {
	n := kills(t)
	b := newBed(t)
	r := rand.New(rand.NewPCG(uint64(n), 2))
	hits := map[hit]int{}
	aimed := map[hit]int{}
	spread := n >= 100 && !inMemory(b.dir)
	for i := 0; i < 3*n && (i-hits[missed] < n || spread && len(wanting(hits, aimed)) > 0); i++ {
		aim := 0
		if i%2 == 1 {
			aim = 1 + i/2%(len(aims)-1)
		}
		old := b.state
		h := b.kill(aim, r)
		hits[h]++
		if aim > 0 {
			aimed[h]++
		}
		state := b.whole()
		if want := map[hit]int{missed: 1 - old, building: old, before: old, after: 1 - old}[h]; state != want {
			t.Fatalf("killed %s it answers as list %d, want %d", h, state, want)
		}
		b.state = state
		b.mustImport(1 - state)
		b.swept()
		if got := b.whole(); got != b.state {
			t.Fatalf("after the kill and an import of list %d it answers as list %d", b.state, got)
		}
	}
	t.Logf("whole imports take %v; kills: %v; of those aimed at the swap: %v", b.time.Round(time.Millisecond), hits, aimed)
	if killed := hits[building] + hits[before] + hits[after]; killed < n {
		t.Errorf("only %d imports were really killed, want %d", killed, n)
	}
	switch {
	case spread:
		for _, text := range wanting(hits, aimed) {
			t.Error(text)
		}
	case n >= 100:
		t.Log("SKIPPED where kills hit: the temporary folder is in memory, and the swap over at once; TMPDIR names another")
	}
}

// wanting tells of what the kills were meant to hit and have not hit often enough.
func wanting(hits, aimed map[hit]int) (list []string) {
	if swap := aimed[before] + aimed[after]; swap < 20 {
		list = append(list, fmt.Sprintf("only %d kills hit the swap, want 20 and more", swap))
	}
	for _, h := range []hit{before, after} {
		if aimed[h] < 5 {
			list = append(list, fmt.Sprintf("%d kills hit %s, want 5 and more", aimed[h], h))
		}
	}
	if hits[building] < 20 {
		list = append(list, fmt.Sprintf("only %d kills hit %s", hits[building], building))
	}
	return list
}
