package view

import (
	"math"
	"strings"
	"testing"

	"lowsone/cmd/internal/order"
	"lowsone/match"
	"lowsone/match/sample"
)

// What the ranking comes to: a fan that is quieter but not surely enough is named
// where the fitted one stands first, and a difference nobody hears is called so.
func TestVerdict(t *testing.T) {
	sure := func(kept ...float64) *sample.Ranking {
		s := &sample.Ranking{Confidence: 0.8, Draws: 256}
		for _, k := range kept {
			s.Sure = append(s.Sure, &sample.Sure{Kept: k, Level: math.Inf(1)})
		}
		return s
	}
	doc := wholeRanking(t)
	all := doc.Ranking.Candidates
	const ways = "Ways out: a larger or deeper fan, if there is room, or less flow if the device needs less: --need."
	ranked := func(order ...int) []match.Candidate {
		var list []match.Candidate
		for _, i := range order {
			list = append(list, all[i])
		}
		return list
	}
	quieter := func(by float64) []match.Candidate {
		list := ranked(0, 2)
		list[0].Planned.Level.DB = 39.4 - by
		return list
	}
	for _, r := range []struct {
		name string
		list []match.Candidate
		sure *sample.Ranking
		want string // of all but the first sentence
	}{
		{"quieter, but not surely", ranked(2, 0), sure(1, 0.74), "so surely. Birke LOW-7 would be 8.1 dB below it, but moves the needed flow in only 74 % of the cases drawn, where 80 % are asked: --confidence 70% takes that for enough, and what to measure next, below, says what would tell. " + ways},
		{"hardly ever enough", ranked(2, 0), sure(1, 0.3), "so surely. Birke LOW-7 would be 8.1 dB below it, but moves the needed flow in only 30 % of the cases drawn, where 80 % are asked: what to measure next, below, says what would tell. " + ways},
		{"the surer of two", ranked(2, 1, 0), sure(1, 0.5, 0.79), "so surely. Birke LOW-7 would be 8.1 dB below it, but moves the needed flow in only 79 % of the cases drawn, where 80 % are asked: --confidence 75% takes that for enough, and what to measure next, below, says what would tell. " + ways},
		{"surely no better", ranked(2, 2), sure(1, 1), "No other fan here does better than the fitted one. " + ways},
		{"nominal", ranked(2, 0), nil, "No other fan here does better than the fitted one. " + ways},
		{"not heard", quieter(0.9), nil, "So little less is not heard: an exchange for its noise is not worth it."},
		{"heard", quieter(1.1), nil, "1.1 dB below the fitted fan now."},
	} {
		doc.Ranking.Candidates, doc.Sure = r.list, r.sure
		if got := strings.Join(doc.verdict(), " "); !strings.HasSuffix(got, r.want) {
			t.Errorf("%s: verdict %q, want one that ends %q", r.name, got, r.want)
		}
	}
}

func TestDoubtfulOrders(t *testing.T) {
	doc := wholeRanking(t)
	all := doc.Ranking.Candidates
	first, second, fitted := &all[0], &all[1], &all[2]
	sure := func(kept ...float64) *sample.Ranking {
		s := &sample.Ranking{Confidence: 0.8}
		for _, k := range kept {
			s.Sure = append(s.Sure, &sample.Sure{Kept: k})
		}
		return s
	}
	for _, r := range []struct {
		listed []*match.Candidate
		sure   *sample.Ranking
		want   string
	}{
		{[]*match.Candidate{first, second}, sure(0.9, 0.8), ""},
		{[]*match.Candidate{first, second}, nil, ""},
		{[]*match.Candidate{first, second}, sure(0.9, 0.7), "1 of 2 fans listed is quieter, but less sure to move the needed flow than was asked (80 %)"},
		{[]*match.Candidate{fitted}, nil, "the fan listed is no quieter than the fitted fan now"},
		{[]*match.Candidate{first, second, fitted, fitted}, sure(0.7, 0.7, 1), "2 of 4 fans listed are no quieter than the fitted fan now; 2 of 4 fans listed are quieter, but less sure to move the needed flow than was asked (80 %)"},
	} {
		doc.Sure = r.sure
		if got := doc.Doubtful(r.listed); got != r.want {
			t.Errorf("Doubtful = %q, want %q", got, r.want)
		}
	}
}

func TestUnsupplied(t *testing.T) {
	from := func(suppliers ...string) *Orders {
		d := &Orders{}
		for _, s := range suppliers {
			d.Lines = append(d.Lines, order.Line{Part: "A", Supplier: s})
		}
		return d
	}
	if got := from("X", "Y").Unsupplied(); got != "" {
		t.Errorf("all lines name a supplier: %q", got)
	}
	if got := from("X", "", "").Unsupplied(); !strings.HasPrefix(got, "lines that name no supplier: 2;") || !strings.Contains(got, "--value supplier=") {
		t.Errorf("two lines name none: %q", got)
	}
}
