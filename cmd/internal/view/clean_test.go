package view

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestClean(t *testing.T) {
	rows := []struct{ name, text, want string }{
		{"plain", "60×60×25 mm, 12 V", "60×60×25 mm, 12 V"},
		{"colour sequence", "\x1b[31mred", "␛[31mred"},
		{"sequence introducer of one byte", "\u009b31m", "\ufffd31m"},
		{"title sequence", "\x1b]0;owned\x07", "␛]0;owned␇"},
		{"lines", "two\r\nlines\tand a tab", "two  lines and a tab"},
		{"delete and backspace", "a\x7fb\x08", "a␡b␈"},
		{"turned writing", "part\u202egnp", "part\ufffdgnp"},
		{"no width", "pa\u200brt", "pa\ufffdrt"},
		{"no UTF-8", "\xff\xfe", "\ufffd\ufffd"},
	}
	for _, r := range rows {
		if got := Clean(r.text); got != r.want {
			t.Errorf("Clean(%q) = %q, want %q (%s)", r.text, got, r.want, r.name)
		}
	}
}

// Property: whatever comes in, nothing that a terminal obeys comes out, and
// cleaning again changes nothing.
func TestCleanIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + rapid.String().Draw(t, "text")
		out := Clean(in)
		if i := strings.IndexFunc(out, func(r rune) bool { return r < ' ' || hidden(r) }); i >= 0 {
			t.Fatalf("Clean(%q) = %q lets %q through", in, out, out[i:])
		}
		if again := Clean(out); again != out {
			t.Fatalf("Clean(%q) = %q, cleaned again %q", in, out, again)
		}
	})
}
