package tabular

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// sampleSize is how much of the text, and sampleRows how many of its rows, the
// delimiter is found by.
const (
	sampleSize = 256 << 10
	sampleRows = 1000
)

// split is how one delimiter parts the sample.
type split struct {
	delimiter rune
	rank      int // a comma stands last: it is a decimal mark and punctuation too
	columns   int // of most rows that have more than one
	rows      int // that have so many
	all       int
	parted    int  // that have more than one
	start     int  // the first of them that has two more below it
	below     int  // how many of them stand from there on
	ranOver   bool // a record's quotes are not closed
}

// candidates are the delimiters looked for, in the order equals are taken.
var candidates = []rune{'\t', ';', '|', ','}

// findDelimiter finds what parts the cells of a text that begins like sample.
// What counts is on how many rows a character stands equally often, and how far
// up that begins, not how often it stands at all. Lines before a given header
// line do not count.
func findDelimiter(sample []byte, whole bool, headerLine int) Trait[rune] {
	if r, ok := sepLine(sample); ok {
		return found(r, "its sep= line")
	}
	sample = fromLine(sample, headerLine)
	var splits []split
	for i, r := range candidates {
		s := measure(sample, whole, r)
		s.rank = i
		if s.plausible(sample) {
			splits = append(splits, s)
		}
	}
	if len(splits) > 1 && splits[len(splits)-1].doubtful(sample) {
		splits = splits[:len(splits)-1]
	}
	if len(splits) == 0 {
		return found(NoDelimiter, "no character parts the lines alike")
	}
	best := choose(closed(splits, sample, whole))
	how := fmt.Sprintf("%d of the first %d rows have %d cells each", best.rows, best.all, best.columns)
	return found(best.delimiter, how)
}

// fromLine is the sample from a line on, or all of it if it does not reach so far.
func fromLine(sample []byte, line int) []byte {
	rest := sample
	for range line - 1 {
		_, after, ok := bytes.Cut(rest, []byte{'\n'})
		if !ok {
			return sample
		}
		rest = after
	}
	return rest
}

// choose takes the split that holds down to the end of the sample on the
// greatest share of rows; among nearly equals, the one that holds from further
// up: cells are parted in the header too, while a decimal comma or a list is not
// there yet. Splits on few rows have no say.
func choose(splits []split) split {
	most := slices.MaxFunc(splits, func(a, b split) int { return a.rows - b.rows }).rows
	splits = slices.DeleteFunc(splits, func(s split) bool { return 2*s.rows < most })
	best := slices.MaxFunc(splits, func(a, b split) int { return cmp.Compare(a.share(), b.share()) }).share()
	splits = slices.DeleteFunc(splits, func(s split) bool { return s.share() < 0.9*best })
	return slices.MinFunc(splits, func(a, b split) int {
		if a.start != b.start {
			return a.start - b.start
		}
		return cmp.Or(b.weight()-a.weight(), a.rank-b.rank)
	})
}

// weight is how many columns a split has; those of commas count half, since each
// cell may hold one.
func (s split) weight() int {
	if s.delimiter == ',' {
		return s.columns
	}
	return 2 * s.columns
}

// share is the part of the rows from start on that the split holds for.
func (s split) share() float64 { return float64(s.below) / float64(s.all-s.start) }

// measure parts the sample at one character.
func measure(sample []byte, whole bool, r rune) split {
	counts, ranOver := cellCounts(sample, whole, r)
	s := split{delimiter: r, all: len(counts), ranOver: ranOver}
	often := make(map[int]int)
	for _, n := range counts {
		often[n]++
		if n > 1 {
			s.parted++
		}
		if n > 1 && (often[n] > s.rows || often[n] == s.rows && n > s.columns) {
			s.columns, s.rows = n, often[n]
		}
	}
	if s.rows == 0 {
		return s
	}
	for s.start < len(counts) && !steady(counts, s.start, s.columns) {
		s.start++
	}
	if s.start == len(counts) {
		s.start = slices.Index(counts, s.columns)
	}
	for _, n := range counts[s.start:] {
		if n == s.columns {
			s.below++
		}
	}
	return s
}

// steady reports whether row i and the next two have n cells.
func steady(counts []int, i, n int) bool {
	for _, c := range counts[i:min(i+3, len(counts))] {
		if c != n {
			return false
		}
	}
	return true
}

// plausible reports whether the split makes a table: it parts half the rows, or
// some rows in three and more cells, below a long title. A comma that only parts
// prose in two does not.
func (s split) plausible(sample []byte) bool {
	switch {
	case s.rows == 0:
		return false
	case s.start > 0 && s.prose(sample):
		return false
	case 2*s.parted >= s.all:
		return true
	}
	return s.columns >= 3 && s.rows >= 2 && 2*s.share() >= 1
}

// prose reports whether the split is one by commas in two, which mostly have a
// space behind them.
func (s split) prose(sample []byte) bool {
	spaced, _, all := commas(sample)
	return s.delimiter == ',' && s.columns == 2 && 5*spaced >= 4*all
}

// doubtful reports whether the split is one by commas in two, which mostly are
// punctuation or decimal marks if anything else parts cells.
func (s split) doubtful(sample []byte) bool {
	spaced, decimal, all := commas(sample)
	return s.delimiter == ',' && s.columns == 2 && 5*(spaced+decimal) >= 4*all
}

// commas counts the commas with a space behind them, those between digits, and all.
func commas(text []byte) (spaced, decimal, all int) {
	for i, c := range text {
		if c != ',' {
			continue
		}
		all++
		if i+1 == len(text) {
			break
		}
		next := text[i+1]
		if next == ' ' {
			spaced++
		} else if i > 0 && isDigit(text[i-1]) && isDigit(next) {
			decimal++
		}
	}
	return spaced, decimal, all
}

// sepLine reads a first line that names the delimiter, as spreadsheets write
// and read it: sep=;
func sepLine(sample []byte) (rune, bool) {
	line := sample
	if n := bytes.IndexAny(sample, "\r\n"); n >= 0 {
		line = sample[:n]
	}
	text := strings.TrimPrefix(string(line), "\"")
	if len(text) < 5 || !strings.EqualFold(text[:4], "sep=") {
		return 0, false
	}
	r, size := utf8.DecodeRuneInString(text[4:])
	rest := strings.Trim(text[4+size:], "\""+string(r))
	if rest != "" || !usableDelimiter(r) {
		return 0, false
	}
	return r, true
}
