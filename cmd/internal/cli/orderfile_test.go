package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A link is never replaced by an order list, wherever it leads: standard output
// of many systems is one.
func TestOrderListSparesLinks(t *testing.T) {
	dir := t.TempDir()
	empty := filepath.Join(dir, "empty.csv")
	if err := os.WriteFile(empty, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, target := range []string{empty, filepath.Join(dir, "nothing.csv"), dir} {
		link := filepath.Join(dir, "link.csv")
		if err := os.Symlink(target, link); err != nil {
			t.Skip(err)
		}
		o := &shortlistOptions{output: link}
		if err := o.checkOutput(); err == nil || !strings.HasSuffix(err.Error(), "is a link") {
			t.Errorf("a link to %s: %v, want it refused", filepath.Base(target), err)
		}
		if err := os.Remove(link); err != nil {
			t.Fatal(err)
		}
	}
	if err := (&shortlistOptions{output: empty}).checkOutput(); err != nil {
		t.Errorf("an empty file: %v", err)
	}
}
