package tabular

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// TestOddTexts: what stands in cells is handed out as it is, whatever it would do
// elsewhere, and nothing else comes of it.
func TestOddTexts(t *testing.T) {
	tests := []struct {
		name, text string
		header     string
		rows       []string
		note       string
	}{
		{"from right to left", "part;U\nKX\u200f-1;\u202e21\nمروحة;24\n", "part|U", []string{"KX\u200f-1|\u202e21", "مروحة|24"}, ""},
		{"byte order marks within", "part;\ufeffU\n\ufeffKX;12\n\ufeff;\ufeff\nKY;24\n", "part|U", []string{"\ufeffKX|12", "KY|24"}, ""},
		{"paths and formulas", "part;U\n../../x;=1+1\n..\\x;@x\n/etc/x;+1\n", "part|U", []string{"../../x|=1+1", "..\\x|@x", "/etc/x|+1"}, ""},
		{"half a pair in UTF-8", "part;U\n\xed\xa0\x80;12\n", "part|U", []string{"í\u00a0€|12"}, ""},
		{"half a pair in UTF-16", "\xff\xfep\x00;\x00U\x00\n\x00\x00\xd8;\x001\x00\n\x00", "p|U", []string{"\ufffd|1"}, "characters are lost"},
		{"delimiters in the first line only", "part;U;Q\nKX\nKY\nKZ\n", "part;U;Q", []string{"KX", "KY", "KZ"}, ""},
		{"the header again", "part;U\nKX;12\npart;U\nKY;24\n", "part|U", []string{"KX|12", "part|U", "KY|24"}, ""},
		{"all line ends", "part;U\rKX;12\nKY;24\r\nKZ;48\n\r\r\n", "part|U", []string{"KX|12", "KY|24", "KZ|48"}, ""},
	}
	t.Chdir(t.TempDir())
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, tt.text, Options{})
			if got := strings.Join(f.Header(), "|"); got != tt.header {
				t.Errorf("header = %q, want %q", got, tt.header)
			}
			if got := cellsOf(rowsOf(t, f)); !slices.Equal(got, tt.rows) {
				t.Errorf("rows = %q, want %q", got, tt.rows)
			}
			if got := strings.Join(f.Dialect().Notes, "\n"); !strings.Contains(got, tt.note) || tt.note == "" && got != "" {
				t.Errorf("notes = %q, want %q", got, tt.note)
			}
		})
	}
	wantNothingWritten(t)
}

// wantNothingWritten looks into the folder the test runs in, and beside it.
func wantNothingWritten(t *testing.T) {
	t.Helper()
	for _, dir := range []string{".", ".."} {
		list, err := os.ReadDir(dir)
		must(t, err)
		if n := len(list); dir == "." && n != 0 || dir == ".." && n != 1 {
			t.Errorf("%s holds %v, want nothing new", dir, list)
		}
	}
}
