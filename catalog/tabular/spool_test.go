package tabular

import (
	"context"
	"errors"
	"io"
	"os"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"
)

func TestSpool(t *testing.T) {
	dir := t.TempDir()
	const text = "a;b\n1;2\n3;4\n"
	s, err := Spool(t.Context(), iotest.OneByteReader(strings.NewReader(text)), dir)
	if err != nil {
		t.Fatal(err)
	}
	if s.Size() != int64(len(text)) {
		t.Errorf("size = %d, want %d", s.Size(), len(text))
	}
	// Where an open file can lose its name, a killed program leaves nothing.
	if left := entries(t, dir); runtime.GOOS != "windows" && len(left) != 0 {
		t.Errorf("files %v, want none", left)
	}
	f, err := Open(t.Context(), "standard input", s, s.Size(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := len(rowsOf(t, f)); got != 2 {
		t.Errorf("rows = %d, want 2", got)
	}
	if err := s.Close(); err != nil || len(entries(t, dir)) != 0 {
		t.Errorf("Close = %v, leaves %v, want nothing", err, entries(t, dir))
	}
}

func TestSpoolFails(t *testing.T) {
	broken := errors.New("broken pipe")
	cancelled, cancel := context.WithCancel(t.Context())
	cancel()
	tests := []struct {
		name string
		ctx  context.Context
		r    io.Reader
		want error
	}{
		{"reader", t.Context(), io.MultiReader(strings.NewReader("a;b\n"), iotest.ErrReader(broken)), broken},
		{"context", cancelled, strings.NewReader("a;b\n"), context.Canceled},
	}
	for _, tt := range tests {
		dir := t.TempDir()
		if _, err := Spool(tt.ctx, tt.r, dir); !errors.Is(err, tt.want) || len(entries(t, dir)) != 0 {
			t.Errorf("%s: Spool = %v, leaves %v, want %v and nothing", tt.name, err, entries(t, dir), tt.want)
		}
	}
	if _, err := Spool(t.Context(), strings.NewReader(""), "no/such/folder"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("Spool without a folder = %v, want os.ErrNotExist", err)
	}
}

func entries(t *testing.T, dir string) []string {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range list {
		names = append(names, e.Name())
	}
	return names
}

// A temporary file is written and read, and its folder does not show it.
func TestTemporary(t *testing.T) {
	dir := t.TempDir()
	f, remove, err := Temporary(dir, "a-*")
	if err != nil {
		t.Fatal(err)
	}
	if left := entries(t, dir); runtime.GOOS != "windows" && len(left) != 0 {
		t.Errorf("its folder shows %v", left)
	}
	got := []byte("....")
	_, errWrite := f.WriteString("text")
	_, errRead := f.ReadAt(got, 0)
	if err := errors.Join(errWrite, errRead); err != nil || string(got) != "text" {
		t.Errorf("it reads back %q, %v", got, err)
	}
	if err := errors.Join(f.Close(), remove()); err != nil || len(entries(t, dir)) != 0 {
		t.Errorf("closed and removed: %v, left %v", err, entries(t, dir))
	}
}
