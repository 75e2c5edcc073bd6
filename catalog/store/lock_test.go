package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTwoImportsAtOnce(t *testing.T) {
	dir := t.TempDir()
	b := begin(t, dir, "a.csv")
	_, err := Begin(context.Background(), dir, Import{Source: "b.csv", Time: day})
	var busy *BusyError
	if !errors.As(err, &busy) {
		t.Fatalf("a second import = %v, want a BusyError", err)
	}
	if busy.PID != os.Getpid() || !busy.Since.Equal(day) || !strings.Contains(busy.Error(), fmt.Sprint(os.Getpid())) {
		t.Errorf("it names process %d since %s: %v", busy.PID, busy.Since, busy)
	}
	if err := add(b, part("A1")); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Commit(context.Background()); err != nil {
		t.Fatalf("the first import, after the second tried: %v", err)
	}
	fill(t, dir, "b.csv", part("B1"))
	if got := names(t, dir); !cmp.Equal(got, []string{"A1", "B1"}) {
		t.Errorf("after both there is %v", got)
	}
}

func TestBusyWithoutAWord(t *testing.T) {
	dir := t.TempDir()
	b := begin(t, dir, "a.csv")
	defer b.Abort()
	if err := os.WriteFile(filepath.Join(dir, lockFile), []byte("?"), 0o644); err != nil {
		t.Fatal(err)
	}
	_, err := Begin(context.Background(), dir, Import{Source: "b.csv"})
	var busy *BusyError
	if !errors.As(err, &busy) || busy.PID != 0 || busy.Hint() == "" {
		t.Errorf("a second import = %v, want a BusyError without a process", err)
	}
}
