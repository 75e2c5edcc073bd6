package bench

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"
)

// mostRows bounds the catalogues; LOWSONE_BENCH_ROWS gives another number.
const mostRows = 1_000_000

func most(b *testing.B) int {
	text := os.Getenv("LOWSONE_BENCH_ROWS")
	if text == "" {
		return mostRows
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		b.Fatal(err)
	}
	return n
}

// BenchmarkRivals prints how lowsone does beside its rivals. It takes some
// minutes, most of them for the catalogue of a million rows.
func BenchmarkRivals(b *testing.B) {
	t := &table{b: b}
	t.add("%-40s %15s %15s %8s", "whole process, median of the runs", "lowsone", "rival", "ratio")
	var perRow []string
	for _, n := range []int{10_000, 100_000, 1_000_000} {
		if n > most(b) {
			t.add("SKIPPED %s rows: LOWSONE_BENCH_ROWS is %d", count(n), most(b))
			continue
		}
		s := newBed(b, n)
		own := t.imports(s)
		perRow = append(perRow, count(n)+": "+strconv.FormatFloat(own.median()/float64(n)*1e6, 'f', 1, 64)+" µs")
		if n >= 100_000 {
			t.ranks(s)
			t.searches(s)
		}
	}
	t.add("import per row, which should not grow: %s", strings.Join(perRow, ", "))
	t.curves()
	fmt.Println("\n" + strings.Join(t.lines, "\n")) // a log would be cut short
	b.ReportMetric(0, "ns/op")                      // the table is what there is to say
}

// bounds of the table, by rows: of import, of ranking all fans, of search.
var bounds = map[int]struct{ importMust, importAim, rankMust, rankAim, searchMust, searchAim float64 }{
	100_000:   {2, 1, 1, 0.6, 1.5, 1},
	1_000_000: {1.5, 0.9, 0.3, 0.15, 0.4, 0.2},
}

// mostMemory is what an import may take at the most, in MiB.
const mostMemory = 256

// imports compares imports, and what they leave on disk.
func (t *table) imports(s *bed) times {
	want := bounds[s.rows]
	c := contest{job: "import " + s.String() + ": records and words", must: want.importMust, aim: want.importAim, runs: 5}
	if s.rows >= 1_000_000 {
		c.runs = 3
	}
	c.own = func() outcome { return s.importAll(t.b, "catalogue") }
	c.rival, c.lacks = s.sqliteImport(t.b)
	own := t.contest(c)
	t.add("%-40s %9.0f MiB%s", "  peak memory", float64(own.peak)/mebibyte, "   "+memoryVerdict(own.peak))
	size := float64(s.size(t.b, "catalogue"))
	if c.rival == nil {
		t.add("%-40s %9.1f MB", "  on disk", size/1e6)
		return own
	}
	other := float64(s.size(t.b, database))
	t.add("%-40s %9.1f MB  %12.1f MB %9.3f×  %s", "  on disk", size/1e6, other/1e6, size/other, verdict(size/other, 1, 0.7))
	return own
}

func memoryVerdict(peak int64) string {
	switch {
	case peak == 0:
		return "the system does not tell"
	case peak <= mostMemory*mebibyte:
		return "as it must (must ≤ 256 MiB)"
	}
	return "missed (must ≤ 256 MiB)"
}

// curves runs the kernel that crosses curves with a device, on one core.
func (t *table) curves() {
	s := &bed{}
	out := s.run(t.b, nil, "go", "test", "-run", "^$", "-bench", "^BenchmarkOperate10Points$", "-cpu", "1", "lowsone/match/curve").out
	for line := range strings.Lines(out) {
		fields := strings.Fields(line)
		for i, f := range fields {
			if f != "rows/s" {
				continue
			}
			rate, err := strconv.ParseFloat(fields[i-1], 64)
			if err != nil {
				t.b.Fatalf("%v: %q", err, line)
			}
			t.add("%-40s %9.1f M rows/s   %s", "10-point curves × device, one core", rate/1e6, rateVerdict(rate/1e6))
			return
		}
	}
	t.b.Fatalf("match/curve tells no rate: %q", out)
}

func rateVerdict(millions float64) string {
	word := "missed"
	if millions >= 25 {
		word = "as it must"
	}
	if millions >= 50 {
		word = "as aimed"
	}
	return word + " (must ≥ 25, aim ≥ 50)"
}
