package store

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// No changed bit of CURRENT and no part of it leads anywhere: least of all to
// the generation before, which is whole.
func TestPointerTellsEveryChange(t *testing.T) {
	for _, n := range []int{1, 2, 3, 47, 999_999, 1_000_000} {
		b := encodePointer(n)
		if got, reason := decodePointer(b); got != n || reason != "" {
			t.Errorf("decodePointer(%q) = %d, %q, want %d", b, got, reason, n)
		}
		for bit := range 8 * len(b) {
			changed := append([]byte(nil), b...)
			changed[bit/8] ^= 1 << (bit % 8)
			if got, reason := decodePointer(changed); reason == "" {
				t.Errorf("decodePointer(%q) = %d, want a reason", changed, got)
			}
		}
		for cut := range b {
			if got, reason := decodePointer(b[:cut]); reason == "" {
				t.Errorf("decodePointer(%q) = %d, want a reason", b[:cut], got)
			}
		}
	}
}

// A catalogue whose pointer has no checksum yet stays readable.
func TestPointerWithoutChecksum(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, "a.csv", part("A1"))
	overwrite(t, filepath.Join(dir, currentFile), func([]byte) []byte { return []byte(generationName(1) + "\n") })
	if got := names(t, dir); !cmp.Equal(got, []string{"A1"}) {
		t.Errorf("it holds %v", got)
	}
}

func FuzzPointer(f *testing.F) {
	f.Add(encodePointer(3))
	f.Add([]byte("gen-000001\n"))
	f.Add([]byte("gen-000001 0\n"))
	f.Fuzz(func(t *testing.T, b []byte) {
		n, reason := decodePointer(b)
		if reason == "" && string(b) != string(encodePointer(n)) && string(b) != fmt.Sprintln(generationName(n)) {
			t.Errorf("decodePointer(%q) = %d", b, n)
		}
	})
}
