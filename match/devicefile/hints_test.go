package devicefile

import (
	"strings"
	"testing"
)

// What a person can mend is told with the mend.
func TestRefusalsNameTheMend(t *testing.T) {
	spot := "spots: [{name: s, found: 50 °C, limit: 70 °C, settled: %s}]"
	for _, c := range []struct{ name, file, reason, hint string }{
		{"arrangement", pathFile("fans: 2", "arrangement: side by side"), "is not one of parallel, series", "parallel is side by side, series one behind the other"},
		{"blank", "device:\npaths:\n", "nothing is filled in", "behind the colons"},
		{"names with commas", pathFile(strings.Replace(spot, "%s", "my own", 1)), `"IEC 62368-1 B.1.6, 10 % below the limit"; "IEC 61010-1`, ""},
	} {
		found := problemsOf(t, c.file)
		if len(found) != 1 || !strings.Contains(found[0].Reason, c.reason) || !strings.Contains(found[0].Hint, c.hint) {
			t.Errorf("%s: problems %+v, want %q, hint %q", c.name, found, c.reason, c.hint)
		}
	}
}
