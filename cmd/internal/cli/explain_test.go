package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// Property: what --explain says of each candidate is what the ranking says, to
// the digits it shows; and every fan that is left out is explained as left out.
func TestExplainTellsTheRankingsNumbers(t *testing.T) {
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
	var imported, all struct {
		Fans json.RawMessage
	}
	ask(&imported, "import", parts)
	var fans []struct{ Part, Maker string }
	ask(&all, "search")
	if err := json.Unmarshal(all.Fans, &fans); err != nil || len(fans) < 10 {
		t.Fatalf("%d fans, %v", len(fans), err)
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
		for _, f := range fans {
			var explained struct{ Outcome string }
			ask(&explained, append(device, "--explain", f.Maker+"/"+f.Part)...)
			want, ok := ranked[f.Maker+"/"+f.Part]
			if !ok {
				want = "left out: "
			}
			if !strings.HasPrefix(explained.Outcome, want) {
				t.Errorf("need %s: %s/%s explained as %q, want %q", need, f.Maker, f.Part, explained.Outcome, want)
			}
		}
	}
}
