package tabular

import (
	"unicode"
	"unicode/utf8"
)

// quoting is how far a file departs from RFC 4180, section 2.
type quoting struct {
	lenient   bool // quote marks within cells stand for themselves
	spaced    bool // blanks between delimiter and quote mark are dropped
	undoubled bool // quote marks within quoted cells are not doubled, see undoubler
}

// openQuote looks, in the text of one record, for a quote mark that opens a cell
// and is not closed as it should be. It returns its byte offset.
//
// Such a mark is found where the text ends inside the quotes. encoding/csv with
// LazyQuotes does not report that, and neither that an unclosed cell runs over
// its line into the next until some other quote mark happens to end it: so a
// mark that looks like an opening one (first in its line, or behind a delimiter)
// inside a cell that already spans lines counts as found too.
func openQuote(text []byte, delimiter rune, q quoting) (offset int, open bool) {
	s := quoteScan{text: text, comma: comma(delimiter), quoting: q}
	for s.at < len(text) {
		if s.text[s.at] != '"' {
			s.bare()
			continue
		}
		from := s.at
		if !s.quoted() {
			return from, true
		}
	}
	return 0, false
}

// quoteScan walks the cells of one record the way encoding/csv does.
type quoteScan struct {
	quoting
	text  []byte
	comma rune
	at    int // where the next cell begins
}

// bare steps over a cell without quotes and what ends it; or only over the
// blanks before a quote mark, if they are dropped.
func (s *quoteScan) bare() {
	blank := s.spaced
	for s.at < len(s.text) {
		r, size := utf8.DecodeRune(s.text[s.at:])
		if blank && r == '"' {
			return
		}
		s.at += size
		if r == s.comma || r == '\n' || r == '\r' {
			return
		}
		blank = blank && unicode.IsSpace(r)
	}
}

// quoted steps over a cell in quotes and what ends it. It returns false if the
// quotes are not closed.
func (s *quoteScan) quoted() bool {
	s.at++
	before, lines := '"', false
	for s.at < len(s.text) {
		r, size := utf8.DecodeRune(s.text[s.at:])
		s.at += size
		if r != '"' {
			end := r == '\n' || r == '\r'
			if end || !s.spaced || !unicode.IsSpace(r) {
				before = r
			}
			lines = lines || end
			continue
		}
		next, size := utf8.DecodeRune(s.text[s.at:])
		switch {
		case size == 0:
			return true
		case next == '"':
			s.at += size
			before = 0
		case next == s.comma || next == '\n' || next == '\r':
			s.at += size
			return true
		case lines && (before == s.comma || before == '\n' || before == '\r'):
			return false
		default:
			before = r
		}
	}
	return false
}
