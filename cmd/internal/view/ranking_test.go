package view

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/cmd/internal/order"
	"lowsone/match"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

func level(db float64) match.Level { return match.Level{DB: db} }

// wholeRanking is a ranking in which everything happens that can.
func wholeRanking(t *testing.T) *Ranking {
	fitted := fanOf(t, "part=LOUD-1", "maker=Aster", "airflow_m3h=48", "static_pressure_pa=120", "noise_dba=43")
	first := fanOf(t, "part=LOW-7", "maker=Birke", "price=8.7", "currency=EUR", "supplier=Cello", "order_code=0815", "stock=3")
	second := fanOf(t, "part==cmd|x", "maker=Distel", "price=12", "currency=USD", "in_stock=yes")
	weak := fanOf(t, "part=WEAK-2", "maker=Distel")
	pass := func(n match.CheckName) match.Check { return match.Check{Name: n, Verdict: catalog.Pass} }
	warn := func(note string) match.Check {
		return match.Check{Name: match.CheckCurrent, Verdict: catalog.Warn, Note: note}
	}
	r := &match.Ranking{
		System: match.System{
			Estimate: resistance.Estimate{Method: resistance.ByShare, System: curve.System{A: 36, B: 648000}, Located: true,
				Q: 30.0 / perHour, P: 45.3, LowQ: 24.0 / perHour, HighQ: 36.0 / perHour, Assumed: []string{"air pressure at sea level"}},
			Density: 1.2, Ratio: 1, Estimated: []catalog.FieldID{catalog.FieldStaticPressure},
			Warnings: []string{"its speed was not measured"},
		},
		Baseline: match.Baseline{Fan: fitted, Ratio: 1, Q: 30.0 / perHour, P: 45.3, Level: level(39.4), HasLevel: true, Estimated: []catalog.FieldID{catalog.FieldStaticPressure}},
		Need:     30.0 / perHour, NeedFrom: "100 % of the present flow", Listener: 1.5,
		Rejected: match.Rejected{match.CheckDepth: 12, match.TooWeak: 5, match.NotRankable: 2},
		TooWeak:  []match.Weak{{Row: 7, Q: 29.0 / perHour, Shortfall: 1.0 / 30, Shares: match.SharesDepends}},
		Looked:   23, Total: 4, NotAsked: 1, Unrankable: []match.Reason{{Why: "no noise level", Count: 2}},
		Notes: []string{"its speed was not measured"},
	}
	point := func(ratio, flow, db float64) match.Point {
		return match.Point{Ratio: ratio, Q: flow / perHour, P: 45.3, Level: level(db)}
	}
	r.Candidates = []match.Candidate{
		{Rank: 1, Row: 3, Full: point(1, 36.5, 35.4), Matched: point(0.83, 30, 31.3), QOverQ0: 0.69, Planned: point(0.83, 30, 31.3), Loud: sones(1.23),
			Checks: []match.Check{pass(match.CheckFrame), warn("draws 0.58 A")}, Pareto: true, Shares: match.SharesHold, TwoEnded: true,
			Price: 8.7, Currency: "EUR", Margin: 0.217},
		{Rank: 2, Row: 4, Full: point(1, 33, 33.5), Matched: point(0.91, 30, 31.5), QOverQ0: 0.6, Planned: match.Point{Ratio: 0.95, Q: 31.3 / perHour, P: 49, Level: match.Level{DB: 6.5, Under: true}},
			Loud: sones(0.1), Limit: match.LimitStart, Estimated: []catalog.FieldID{catalog.FieldNoise}, Stalled: match.StallProbable, Marginal: true, Tie: true,
			Checks: []match.Check{pass(match.CheckFrame), warn("draws 0.58 A"), {Name: match.CheckConnector, Verdict: catalog.Unclear, Note: "plug not stated"}},
			Shares: match.SharesDepends, Price: 12, Currency: "USD", Margin: 0.1, StallNote: "works at 40 % of its free delivery", Cautions: []string{"below half speed it is an estimate"}},
		{Rank: 3, Row: match.NotInCatalogue, Fitted: true, Full: point(1, 30, 39.4), Matched: point(1, 30, 39.4), QOverQ0: 0.63, Planned: point(1, 30, 39.4),
			Loud: sones(2.7), Limit: match.LimitFull, Stalled: match.StallNear, Price: math.NaN(), Margin: 0,
			Checks: []match.Check{pass(match.CheckFrame)}, Shares: match.SharesHold},
	}
	return &Ranking{Ranking: r, Assumed: true, Fans: map[int]*catalog.Fan{3: first, 4: second, 7: weak}}
}

const ranking100 = `First: Birke LOW-7, 31.3 dB(A) at 1.5 m and 83 % of its speed, 8.1 dB below the fitted fan now.

rank  part    maker   level  change   sone  speed  flow  spare  fit        price  marks
                      dB(A)      dB             %  m³/h      %
────────────────────────────────────────────────────────────────────────────────────────
   1  LOW-7   Birke    31.3    -8.1  ~1.2      83  30.0     22  1!      8.70 EUR  P
   2  =cmd|x  Distel   ≤6.5   -32.9  ~0.10     95  31.3     10  1! 1?  12.00 USD  =~sMDH
   3  LOUD-1  Aster    39.4     0.0  ~2.7     100  30.0      0  ok       –        FS
!  current: draws 0.58 A (1, 2)
?  connector: plug not stated (2)
!  below half speed it is an estimate (2)

   each fan as it would be run; change: against the fitted fan now; spare: more flow at full speed;
   fit: checks to be looked at (!), not known (?)
   sone: loudness as ears hear it, ISO 532-1, free field; ~ by a typical spectrum of its kind, none
   was measured
   order: whole dB, all that is too quiet to matter alike; then fewer estimates, more spare, lower
   price
F  the fitted fan
=  a tie with the first: the difference cannot be heard
P  no fan this quiet has more spare flow
~  rests on an estimate: no sheet gave it (noise (2))
S  in or near the dip of its curve: stalled, rough and louder
s  probably stalled: get its full curve before ordering
M  marginal: needs over 90 % of its full speed, whose tolerance is ±10 %
D  enough air only at some of the three shares: measure before ordering
H  held above the speed that would just do (may not start slower (2))
±  curve drawn between the two ends of its label: flow known to ±20 %, ±10 % for centrifugal fans
   (1)

fitted fan  Aster LOUD-1 at its label speed: 30.0 m³/h against 45.3 Pa, 39.4 dB(A) at 1.5 m
            (~estimated: static pressure)
device      Δp = 0.0100·Q + 0.0500·Q² (Pa, Q in m³/h), ~assuming that its fan moves 55 % of its free
            delivery
band        the flow now is 24.0 to 36.0 m³/h in about 8 of 10 devices measured like this, in 1
            less, in 1 more
needed      30.0 m³/h (100 % of the present flow); levels at 1.5 m without walls (free field), in a
            small room up to 9 dB more

looked at     23 fans; fit and move enough air: 4; 1 more not shown (--top 4 shows all)
shares        of the 3 shown 2 hold at 40, 55 and 70 % of free delivery alike, 1 depend on the share
left out      depth 12, too weak 5, not rankable 2
not rankable  2: no noise level
too weak      nearest: Distel WEAK-2 moves 29.0 m³/h, 3.3 % short (enough at another share)
default       air pressure at sea level; label values for 1.2 kg/m³ and 1 m from the inlet in free
              air where a sheet is silent
note          its speed was not measured

Caution: mains inside, capacitors keep charge, spinning blades, hot parts, intense light: unplug,
wait, cover. Never defeat a thermal cut-out or a fan alarm. Medical, safety and fire-protection
devices, sealed mains modules and ducts that carry fumes are for licensed people. Local electrical
codes and the maker's instructions come first.
`

// pin: our own layout.
func TestRankingAsText(t *testing.T) {
	if diff := cmp.Diff(strings.Split(ranking100, "\n"), strings.Split(textOf(t, wholeRanking(t), 0), "\n")); diff != "" {
		t.Errorf("Ranking.Text without a limit (-want +got):\n%s", diff)
	}
}

func textOf(t testing.TB, doc Document, width int) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, doc, FormatTable, Style{Width: width}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Results for people keep to the width of the terminal, and to 100 columns
// where that is wider or there is none.
func TestResultsKeepToTheWidth(t *testing.T) {
	ranking := wholeRanking(t)
	for _, doc := range []Document{ranking, ranking.system(), wholeExplanation(), wholeOrders(t)} {
		for _, width := range []int{0, 80, 100, 160} {
			limit := min(width, 100)
			if width == 0 {
				limit = 100
			}
			for line := range strings.Lines(textOf(t, doc, width)) {
				if n := len([]rune(strings.TrimRight(line, "\n"))); n > limit {
					t.Errorf("%T at width %d: %d columns: %s", doc, width, n, line)
				}
			}
		}
	}
}

// The caution of physics stands exactly once under each result that may be
// acted on, and not at all where it was said above.
func TestCautionOnce(t *testing.T) {
	ranking := wholeRanking(t)
	for _, doc := range []Document{ranking, ranking.system(), wholeExplanation(), wholeOrders(t)} {
		for _, cautioned := range []bool{false, true} {
			var b bytes.Buffer
			if err := Write(&b, doc, FormatTable, Style{Cautioned: cautioned}); err != nil {
				t.Fatal(err)
			}
			want := 1
			if cautioned {
				want = 0
			}
			if n := strings.Count(b.String(), "Never defeat a thermal cut-out or a fan alarm"); n != want {
				t.Errorf("%T, cautioned %v: caution stands %d times, want %d", doc, cautioned, n, want)
			}
		}
	}
}

// TestRankingKeys checks the keys that others lean on.
func TestRankingKeys(t *testing.T) {
	whole, empty := wholeRanking(t), wholeRanking(t)
	empty.Ranking.Candidates, empty.Ranking.TooWeak, empty.Ranking.Notes, empty.Ranking.Unrankable = nil, nil, nil, nil
	empty.Ranking.System.Warnings, empty.Ranking.System.Estimated, empty.Ranking.System.Estimate.Assumed = nil, nil, nil
	empty.Ranking.Baseline.HasLevel, empty.Ranking.System.Located = false, false
	point := func(at string, more ...string) (keys []string) {
		for _, k := range append(more, "flow_m3h", "pressure_pa", "level_dba") {
			keys = append(keys, "candidates[]."+at+"."+k)
		}
		return keys
	}
	top := []string{"baseline.part", "baseline.speed_ratio", "system.method", "system.a_pa_per_m3h", "system.b_pa_per_m3h2",
		"need.flow_m3h", "need.from", "level_distance_m", "candidates", "rejected.frame", "rejected.depth", "rejected.kind", "rejected.voltage",
		"rejected.supply", "rejected.current", "rejected.tach", "rejected.pwm", "rejected.temperature", "rejected.too_weak", "rejected.not_rankable", "schema_version", "caution"}
	full := slices.Concat(top, point("full"), point("matched", "speed_ratio", "q_over_qmax"), point("planned", "speed_ratio", "sone", "limited_by"), []string{
		"baseline.flow_m3h", "baseline.pressure_pa", "baseline.level_dba", "system.operating_point.flow_m3h", "system.operating_point.pressure_pa", "system.band.flow_low_m3h",
		"candidates[].rank", "candidates[].part", "candidates[].fitted", "candidates[].fit[].check", "candidates[].fit[].result", "candidates[].fit[].note",
		"candidates[].estimated[]", "candidates[].price", "candidates[].currency", "candidates[].stock", "candidates[].in_stock", "too_weak[].shortfall_ratio"})
	for _, r := range []struct {
		name   string
		doc    Document
		want   []string
		absent []string
	}{
		{"rank", whole, full, []string{"candidates[].full.q_over_qmax", "candidates[].matched.sone"}},
		{"rank without a result", empty, top, []string{"baseline.level_dba", "baseline.flow_m3h", "system.operating_point", "system.band", "candidates[]"}},
		{"system", whole.system(), []string{"schema_version", "method", "a_pa_per_m3h", "b_pa_per_m3h2", "operating_point.flow_m3h",
			"operating_point.pressure_pa", "band.flow_low_m3h", "band.flow_high_m3h", "baseline.part", "level_distance_m", "caution"}, nil},
		{"explain", wholeExplanation(), []string{"schema_version", "part", "outcome", "steps[].title", "steps[].formula", "steps[].numbers", "steps[].result", "steps[].estimate"}, nil},
		{"shortlist", wholeOrders(t), []string{"schema_version", "lines[].part", "lines[].maker", "lines[].supplier", "lines[].order_code", "lines[].quantity",
			"lines[].unit_price", "lines[].line_price", "lines[].currency", "lines[].why", "totals[].amount", "lines_without_price"}, []string{"file"}},
		{"shortlist of nothing", &Orders{}, []string{"lines", "totals", "lines_without_price"}, []string{"lines[]"}},
	} {
		keys := keysOf(t, r.doc)
		for _, key := range r.want {
			if !slices.Contains(keys, key) {
				t.Errorf("%s: no key %s in %v", r.name, key, keys)
			}
		}
		for _, key := range r.absent {
			if slices.Contains(keys, key) {
				t.Errorf("%s: key %s, want it absent", r.name, key)
			}
		}
	}
}

// Every number of the text is that of the match, in the unit of its column.
func TestRankingAsCSV(t *testing.T) {
	doc := wholeRanking(t)
	var b bytes.Buffer
	if err := Write(&b, doc, FormatCSV, Style{}); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("CSV has %d rows, %v, want 4", len(rows), err)
	}
	cell := func(row int, name string) string { return rows[row][slices.Index(rows[0], name)] }
	for _, c := range []struct {
		row        int
		name, want string
	}{
		{1, "flow_m3h", "30"}, {1, "level_dba", "31.3"}, {1, "level_difference_db", "-8.1"}, {1, "full_flow_m3h", "36.5"}, {1, "speed_ratio", "0.83"},
		{1, "check", "current"}, {1, "not_known", ""}, {1, "price", "8.7"}, {1, "order_code", "0815"},
		{2, "part", "'=cmd|x"}, {2, "level_is_upper_bound", "true"}, {2, "limited_by", "start"}, {2, "estimated", "noise_dba"}, {2, "not_known", "connector"},
		{3, "fitted", "true"}, {3, "price", ""}, {3, "currency", ""},
	} {
		if got := cell(c.row, c.name); got != c.want {
			t.Errorf("row %d, %s = %q, want %q", c.row, c.name, got, c.want)
		}
	}
}

func TestWhy(t *testing.T) {
	doc := wholeRanking(t)
	for i, want := range []string{
		"rank 1 of 4: 31.3 dB(A) at 1.5 m moving 30.0 m3/h at 83 % of its speed, 8.1 dB below the fitted fan; check current",
		"rank 2 of 4: at most 6.5 dB(A) at 1.5 m moving 31.3 m3/h at 95 % of its speed, 32.9 dB below the fitted fan; check current; not known: connector; estimated: noise; probably stalled; marginal; enough air only at some shares",
		"rank 3 of 4: 39.4 dB(A) at 1.5 m moving 30.0 m3/h at 100 % of its speed, no quieter than the fitted fan; stalled",
	} {
		got := doc.Why(&doc.Ranking.Candidates[i])
		if got != want {
			t.Errorf("Why(%d) = %q, want %q", i+1, got, want)
		}
		if strings.ContainsFunc(got, func(r rune) bool { return r > '~' }) {
			t.Errorf("Why(%d) = %q holds more than ASCII", i+1, got)
		}
	}
}

// Property: the short form of ranks names each rank exactly once.
func TestRankTextNamesEachRank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "candidates")
		d := &Ranking{Ranking: &match.Ranking{Candidates: make([]match.Candidate, n)}}
		var want []int
		for i := 1; i <= n; i++ {
			if rapid.Bool().Draw(t, "in") {
				want = append(want, i)
			}
		}
		got := ranksOf(t, strings.Trim(d.rankText(want), "()"), n)
		if !slices.Equal(got, want) {
			t.Fatalf("rankText(%v) = %s", want, d.rankText(want))
		}
	})
}

// ranksOf reads what rankText wrote.
func ranksOf(t *rapid.T, text string, n int) []int {
	if text == "all" {
		text = "1–" + strconv.Itoa(n)
	}
	var all []int
	for part := range strings.SplitSeq(text, ", ") {
		first, last, many := strings.Cut(part, "–")
		a, errA := strconv.Atoi(first)
		b := a
		var errB error
		if many {
			b, errB = strconv.Atoi(last)
		}
		if text != "" && (errA != nil || errB != nil) {
			t.Fatalf("%q is no rank", part)
		}
		for r := a; text != "" && r <= b; r++ {
			all = append(all, r)
		}
	}
	return all
}

func wholeExplanation() *Explanation {
	return &Explanation{Fan: &catalog.Fan{Part: "LOW-7", Maker: "Birke"}, Explanation: &match.Explanation{Row: 3, Outcome: "ranked 1 of 4", Steps: []match.Step{
		{Title: "its level at 1 m", Formula: "Lp = Lw − 11 dB", Numbers: "50 − 11", Result: "39.0 dB(A)", Source: "free field"},
		{Title: "loudness", Formula: strings.Repeat("phon and ", 20), Result: "1.23 sone", Estimate: true},
	}}}
}

func TestExplanationAsText(t *testing.T) {
	const want = `Birke LOW-7: ranked 1 of 4

 1  its level at 1 m
    Lp = Lw − 11 dB
    50 − 11
    = 39.0 dB(A)
    [free field]

 2  loudness
`
	got := textOf(t, wholeExplanation(), 0)
	if !strings.HasPrefix(got, want) || !strings.Contains(got, "\n    = ~1.23 sone\n") || !strings.Contains(got, "\n"+EstimateNote+"\n") {
		t.Errorf("Explanation.Text = %s", got)
	}
}

func wholeOrders(t *testing.T) *Orders {
	priced := fanOf(t, "part=LOW-7", "maker=Birke", "price=8.7", "currency=EUR", "supplier=Cello", "order_code=0815")
	return &Orders{Lines: []order.Line{order.NewLine(priced, 3, strings.Repeat("quiet and cool ", 12)), order.NewLine(fanOf(t, "part=X"), 3, "named")}}
}

func TestTotals(t *testing.T) {
	whole := wholeOrders(t)
	dear := fanOf(t, "part=Y", "price=1", "currency=CHF")
	for _, c := range []struct {
		name  string
		lines []order.Line
		want  string
	}{
		{"one without a price", whole.Lines, "total: 26.10 EUR, and 1 without a price"},
		{"two currencies", []order.Line{whole.Lines[0], order.NewLine(dear, 2, "")}, "total: 2.00 CHF + 26.10 EUR"},
		{"no price", whole.Lines[1:], "total: not known, none of 1 lines has a price"},
		{"no currency", []order.Line{order.NewLine(fanOf(t, "part=Y", "price=1"), 2, "")}, "total: 2.00 (currency not stated)"},
	} {
		if got := (&Orders{Lines: c.lines}).Totals(); got != c.want {
			t.Errorf("%s: Totals = %q, want %q", c.name, got, c.want)
		}
	}
}

// Nothing that a catalogue holds reaches a terminal raw.
func TestNothingRawOfARankingReachesATerminal(t *testing.T) {
	const evil = "\x1b]0;x\x07\u009b31m\u202e\r\n"
	ranking := wholeRanking(t)
	r := ranking.Ranking
	r.NeedFrom, r.Notes, r.Unrankable[0].Why, r.Baseline.Fan.Part = evil, []string{evil}, evil, evil
	for i := range r.Candidates {
		c := &r.Candidates[i]
		c.Currency, c.Price, c.Cautions = evil, 1, []string{evil}
		c.Checks = append(c.Checks, match.Check{Name: match.CheckConnector, Verdict: catalog.Warn, Note: evil})
	}
	for _, fan := range ranking.Fans {
		fan.Part, fan.Maker, fan.Supplier, fan.OrderCode = evil+"p", evil, evil, evil
	}
	explained, orders := wholeExplanation(), wholeOrders(t)
	explained.Fan.Part, explained.Explanation.Steps[0].Title, explained.Explanation.Steps[0].Numbers = evil, evil, evil
	orders.Lines[0].Part, orders.Lines[0].Why, orders.Lines[0].Currency, orders.File = evil, evil, evil, evil
	for _, doc := range []Document{ranking, ranking.system(), explained, orders, &Story{Sentences: []string{evil}, File: evil}} {
		for format := range Formats {
			if _, ok := doc.(Spreadsheet); !ok && Format(format) == FormatCSV {
				continue
			}
			var b bytes.Buffer
			if err := Write(&b, doc, Format(format), Style{Width: 80, Terminal: true}); err != nil {
				t.Fatal(err)
			}
			if i := strings.IndexFunc(b.String(), func(r rune) bool { return r != '\n' && (r < ' ' || hidden(r)) }); i >= 0 {
				t.Errorf("%T as %s lets %.20q through", doc, Format(format), b.String()[i:])
			}
		}
	}
}

func sones(n float64) match.Loudness {
	return match.Loudness{Sone: n, Low: n, High: n, Phon: math.NaN(), Added: math.NaN(), Spectrum: "invented"}
}
