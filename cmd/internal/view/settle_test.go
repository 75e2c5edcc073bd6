package view

import (
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/match"
)

// What about the device would settle a check is named once, by its flag, or by
// its place in the device file.
func TestLegendNamesWhatSettles(t *testing.T) {
	open := func(verdict catalog.Verdict, note string) match.Check {
		return match.Check{Name: match.CheckTach, Verdict: verdict, Note: note, Asks: match.AskWatches}
	}
	d := &Ranking{Ranking: &match.Ranking{Candidates: []match.Candidate{
		{Rank: 1, Checks: []match.Check{open(catalog.Warn, "is it watched?"), {Name: match.CheckKind, Verdict: catalog.Unclear, Note: "kind of the seat not known", Asks: match.AskKind}}},
		{Rank: 2, Checks: []match.Check{open(catalog.Unclear, "third lead not stated"), {Name: match.CheckDepth, Verdict: catalog.Unclear, Note: "depth not stated"}}},
	}}}
	for _, c := range []struct {
		around     *Around
		kind, lead string
	}{
		{nil, "kind of the seat not known (1) – --kind settles it", "is it watched? (1) – --watches settles it"},
		{&Around{Device: &match.Device{}}, "kind of the seat not known (1) – kind under space or --kind settles it", "is it watched? (1) – watches under leads or --watches settles it"},
	} {
		d.Around = c.around
		var said []string
		for _, f := range d.found() {
			said = append(said, f.says)
		}
		text := strings.Join(said, "\n")
		if !strings.Contains(text, c.kind) || !strings.Contains(text, c.lead) || strings.Count(text, "--watches") != 1 || strings.Contains(text, "depth not stated (2) –") {
			t.Errorf("legend is\n%s\nwant %q and %q, each once", text, c.kind, c.lead)
		}
	}
	for q := match.AskFrame; int(q) < len(settledBy); q++ {
		if settles([]match.Question{q}, false) == "" {
			t.Errorf("question %d: nothing settles it", q)
		}
	}
	if len(settledBy) != int(match.AskConnector)+1 {
		t.Errorf("%d answers for %d questions", len(settledBy), match.AskConnector+1)
	}
}
