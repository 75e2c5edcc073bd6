package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// withParts imports the parts list of the rank session and gives the variables
// that name its catalogue.
func withParts(t *testing.T) map[string]string {
	archive, err := txtar.ParseFile(filepath.Join("testdata", "session", "rank.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	work := t.TempDir()
	vars := map[string]string{"LOWSONE_CATALOG": filepath.Join(work, "catalogue")}
	parts := filepath.Join(work, "parts.csv")
	if err := os.WriteFile(parts, archive.Files[0].Data, 0o666); err != nil {
		t.Fatal(err)
	}
	if _, stderr, code := run(t, strings.NewReader(""), vars, "import", parts); code != exitDone {
		t.Fatal(stderr)
	}
	return vars
}

// Property: what --explain says of each candidate is what the ranking says, to
// the digits it shows; and every fan that is left out is explained as left out.
func TestExplainTellsTheRankingsNumbers(t *testing.T) {
	vars := withParts(t)
	ask := func(into any, args ...string) {
		t.Helper()
		stdout, stderr, code := run(t, strings.NewReader(""), vars, append(args, "--format", "json")...)
		if code != exitDone {
			t.Fatalf("%q: exit %d: %s", args, code, stderr)
		}
		if err := json.Unmarshal([]byte(stdout), into); err != nil {
			t.Fatal(err)
		}
	}
	var all struct {
		Fans []struct{ Part, Maker string }
	}
	ask(&all, "search")
	if len(all.Fans) < 10 {
		t.Fatalf("%d fans, want some", len(all.Fans))
	}
	for _, need := range []string{"100%", "70%", "20m3/h"} {
		device := []string{"rank", "--replace", "OMB-625B56B3", "--heat", "90W", "--air-rise", "9K", "--need", need, "--listener", "1.5m"}
		var ranking struct {
			Total      int `json:"candidates_total"`
			Candidates []struct {
				Rank        int
				Part, Maker string
				Planned     struct {
					Level float64 `json:"level_dba"`
					Flow  float64 `json:"flow_m3h"`
				}
			}
		}
		ask(&ranking, device...)
		ranked := map[string]string{}
		for _, c := range ranking.Candidates {
			ranked[c.Maker+"/"+c.Part] = fmt.Sprintf("ranked %d of %d: %.1f dB(A) at %.4g m³/h", c.Rank, ranking.Total, c.Planned.Level, c.Planned.Flow)
		}
		if len(ranked) < 3 {
			t.Errorf("need %s: %d candidates, want some to explain", need, len(ranked))
		}
		for _, f := range all.Fans {
			var explained struct{ Outcome string }
			ask(&explained, append(device, "--explain", f.Maker+"/"+f.Part)...)
			want, ok := ranked[f.Maker+"/"+f.Part]
			if !ok {
				want = "left out: "
			}
			if !strings.HasPrefix(surely.ReplaceAllString(explained.Outcome, ""), want) {
				t.Errorf("need %s: %s/%s explained as %q, want %q", need, f.Maker, f.Part, explained.Outcome, want)
			}
		}
	}
}

// surely is what stands behind the rank of a ranking with bands.
var surely = regexp.MustCompile(` with 80 % confidence, nominally [0-9]+`)

// The marks of the table stand for cautions of the match; the others are told
// in words. This holds both sides to each other.
func TestMarksStandForCautions(t *testing.T) {
	vars := withParts(t)
	marginal, stalled := 0, 0
	for _, need := range []string{"100%", "45%"} {
		for _, share := range []string{"35%", "60%"} {
			stdout, stderr, _ := run(t, strings.NewReader(""), vars, "rank", "--replace", "OMB-625B56B3", "--delivers", share, "--need", need, "--format", "json")
			var ranking struct {
				Candidates []struct {
					Part, Stalled string
					Marginal      bool
					Cautions      []string
				}
			}
			if err := json.Unmarshal([]byte(stdout), &ranking); err != nil {
				t.Fatal(err, stderr)
			}
			for _, c := range ranking.Candidates {
				begins := func(lead string) bool {
					return strings.HasPrefix(strings.Join(c.Cautions, "\n"), lead) || strings.Contains(strings.Join(c.Cautions, "\n"), "\n"+lead)
				}
				if begins("needs ") != c.Marginal || begins("works at ") != (c.Stalled != "no") {
					t.Errorf("share %s, need %s: %s is marginal %v, stalled %s, but cautioned with %q", share, need, c.Part, c.Marginal, c.Stalled, c.Cautions)
				}
				if c.Marginal {
					marginal++
				}
				if c.Stalled != "no" {
					stalled++
				}
			}
		}
	}
	if marginal == 0 || stalled == 0 {
		t.Errorf("%d marginal and %d stalled candidates, want some of each", marginal, stalled)
	}
}
