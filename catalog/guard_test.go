package catalog

import (
	"testing"

	"pgregory.net/rapid"
)

// What a spreadsheet runs: leading = + - @, tab and carriage return, common
// practice for CSV that others open.
func TestNoCellRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`['=+@\t\r ＝0-9a.x-]{0,6}`).Draw(t, "text")
		cell := Guarded(text)
		if runs(cell) && cell[0] != '\'' && !plainNumber(cell) {
			t.Fatalf("Guarded(%q) = %q, which a spreadsheet runs", text, cell)
		}
		if back := Unguarded(cell); back != text {
			t.Fatalf("Unguarded(Guarded(%q)) = %q", text, back)
		}
	})
}

func TestGuarded(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"plain part", "NV-6025", "NV-6025"},
		{"formula", `=HYPERLINK("x")`, `'=HYPERLINK("x")`},
		{"plus words", "+12 V lead", "'+12 V lead"},
		{"at", "@SUM(1)", "'@SUM(1)"},
		{"minus words", "-n/a-", "'-n/a-"},
		{"negative number", "-12.5", "-12.5"},
		{"signed exponent", "+1e3", "+1e3"},
		{"infinity is no number", "-Inf", "'-Inf"},
		{"hexadecimal is no number", "-0x1p4", "'-0x1p4"},
		{"blank before a formula", " =1", "' =1"},
		{"tab", "\t1", "'\t1"},
		{"carriage return", "\r1", "'\r1"},
		{"full width", "＝1+1", "'＝1+1"},
		{"behind an apostrophe", "'=1", "''=1"},
		{"apostrophe alone", "'s", "'s"},
		{"empty", "", ""},
	} {
		if got := Guarded(c.text); got != c.want {
			t.Errorf("%s: Guarded(%q) = %q, want %q", c.name, c.text, got, c.want)
		}
	}
}
