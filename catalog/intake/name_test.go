package intake

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestSourceNames: a source's name can be typed again, and is not endless.
func TestSourceNames(t *testing.T) {
	for _, r := range []struct{ source, file, want string }{
		{"", "lists/prices.csv", "prices.csv"},
		{"", "-", "stdin"},
		{"", "/dev/fd/63", "stdin"},
		{"", "/dev/stdin", "stdin"},
		{"", "/dev/fd/63/a", "a"},
		{"  winter list ", "-", "winter list"},
		{"two\nlines\tand\x1b[31m", "-", "two lines and[31m"},
		{"\u202ertl\u200b", "-", "rtl"},
		{"e\u0301", "-", "\u00e9"},
		{"\u200b", "lists/p.csv", "p.csv"},
		{"../../x", "-", "../../x"},
	} {
		if got := (&Options{Source: r.source, File: r.file}).sourceName(); got != r.want {
			t.Errorf("the source %q of %q is called %q, want %q", r.source, r.file, got, r.want)
		}
	}
	p := newPlace(t, listHeader+goodRows)
	_, err := p.run(func(o *Options) { o.Source = strings.Repeat("y", longestName+1) })
	var long *LongNameError
	if !errors.As(err, &long) || long.Hint() == "" {
		t.Errorf("a name of %d bytes: %v", longestName+1, err)
	}
}

// TestRejectsOfLikeNames: no two sources have one file for what is rejected.
func TestRejectsOfLikeNames(t *testing.T) {
	long := strings.Repeat("y", 150)
	seen := map[string]string{}
	for _, source := range []string{"a/b", "a-b", "a:b", "a\\b", "a b", "../x", "..-x", long + "1", long + "2", "list.xlsx#24 V", "list.xlsx-24 V"} {
		name := fileName(source)
		if other, ok := seen[name]; ok {
			t.Errorf("%q and %q both have %q", source, other, name)
		}
		if strings.ContainsAny(name, "/\\:") || len(name) > 120 {
			t.Errorf("%q has %q", source, name)
		}
		seen[name] = source
	}
}

// TestStream: what a shell has open has no path that could be imported again.
func TestStream(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	f, err := os.Open(p.file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	path := fmt.Sprintf("/dev/fd/%d", f.Fd())
	if _, err := os.Stat(path); err != nil {
		t.Skip("the system has no names for what is open")
	}
	a := p.ok(func(o *Options) { o.File = path })
	if a.Source != "stdin" || a.Path != "" {
		t.Errorf("source %q, path %q, want stdin without a path", a.Source, a.Path)
	}
}
