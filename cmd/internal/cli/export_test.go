package cli

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestExportOfTheDemo writes the demo's catalogue and reads it again, into the
// same catalogue and into a new one: what search, show and rank say stays the same.
func TestExportOfTheDemo(t *testing.T) {
	vars := atDemo(t)
	file := filepath.Join(t.TempDir(), "export.csv")
	must(t, vars, "catalog", "export", file)
	var account struct{ Rows, Imported, Rejected int }
	if err := json.Unmarshal([]byte(must(t, vars, "import", file, "--source", "parts.csv", "--dry-run", "--format", "json")), &account); err != nil {
		t.Fatal(err)
	}
	// A few litres a second have no decimal number of cubic metres an hour: their
	// last bit differs.
	if account.Rows < 400 || account.Rejected > 0 || account.Imported > account.Rows/100 {
		t.Errorf("imported where it comes from the export is something new: %+v", account)
	}
	other := map[string]string{"LOWSONE_CATALOG": filepath.Join(t.TempDir(), "other")}
	must(t, other, "import", file, "--source", "parts.csv", "-q")
	for _, args := range [][]string{
		{"search", "--format", "json"},
		{"search", "kugellager", "--format", "json"},
		{"show", "W60A25-12.63-3", "--format", "csv"},
		{"rank", "--replace", "OMB-625B56B3", "--heat", "90W", "--air-rise", "9K", "--format", "json"},
		{"catalog", "export", "-"},
	} {
		if diff := cmp.Diff(must(t, vars, args...), must(t, other, args...)); diff != "" {
			t.Errorf("lowsone %v differs (-first +read again):\n%s", args, diff)
		}
	}
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	must(t, other, "catalog", "export", file)
	if after, err := os.ReadFile(file); err != nil || string(after) != string(before) {
		t.Errorf("the export of the export differs: %v\n%s", err, cmp.Diff(string(before), string(after)))
	}
}

// must runs a command that has to succeed.
func must(t *testing.T, vars map[string]string, args ...string) string {
	t.Helper()
	stdout, stderr, code := run(t, strings.NewReader(""), vars, args...)
	if code != exitDone {
		t.Fatalf("lowsone %s: exit %d: %s", strings.Join(args, " "), code, stderr)
	}
	return stdout
}
