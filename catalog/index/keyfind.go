package index

import "bytes"

// keyMatches holds the rows of a chunk whose part number or codes an asked
// text meets.
type keyMatches struct {
	part       rowSet // it is the part number
	partBegins rowSet // the part number begins with it
	word       rowSet // it is one of its words
	wordBegins rowSet // one of its words begins with it
}

// A part number has these words: what stands between separators, runs of
// letters and of digits, and its tails, from each such place to the end. A
// code has the same but for the tails, and itself without separators.

// find looks for a text in the keys of all rows. It must not be empty.
func (k *keys) find(text string) keyMatches {
	m := keyMatches{newRowSet(k.rows), newRowSet(k.rows), newRowSet(k.rows), newRowSet(k.rows)}
	k.parts.each(text, func(o occurrence) {
		if o.begin == o.at {
			m.partBegins.add(o.row)
			if o.stop == o.of.clipped(o.begin, o.end) {
				m.part.add(o.row)
			}
		}
		if o.isTail() {
			m.wordBegins.add(o.row)
			if o.stop == o.of.clipped(o.at, o.end) {
				m.word.add(o.row)
			}
		}
		m.piecewise(o)
	})
	k.codes.each(text, func(o occurrence) {
		if o.begin == o.at {
			m.wordBegins.add(o.row)
			if o.stop == o.of.clipped(o.begin, o.end) {
				m.word.add(o.row)
			}
		}
		m.piecewise(o)
	})
	return m
}

// piecewise holds an occurrence against what stands between separators and
// against the runs of letters and of digits.
func (m *keyMatches) piecewise(o occurrence) {
	against := func(end int) {
		end = o.of.clipped(o.at, end)
		if o.stop <= end {
			m.wordBegins.add(o.row)
		}
		if o.stop == end {
			m.word.add(o.row)
		}
	}
	if o.of.wordAt(o.begin, o.at) {
		against(o.of.wordEnd(o.at, o.end))
	}
	against(o.of.pieceEnd(o.at, o.end))
}

// occurrence is a place in the keys where an asked text stands, at the
// beginning of a piece: from at to before stop, in the key from begin to before
// end.
type occurrence struct {
	of                   *keyText
	row                  int
	begin, at, stop, end int
}

// isTail says whether the key is searched for from here on to its end.
func (o *occurrence) isTail() bool {
	before := 0
	for i := o.begin; i < o.at && before <= maxTails; i = o.of.pieceEnd(i, o.end) {
		before++
	}
	return before > 0 && before <= maxTails
}

// each passes the places where text stands at the beginning of a piece, from
// first to last.
func (t *keyText) each(text string, pass func(occurrence)) {
	pattern := []byte(text)
	row, counted := 0, 0
	for from := 0; ; {
		i := bytes.Index(t.text[from:], pattern)
		if i < 0 {
			return
		}
		at := from + i
		from = at + 1
		begin := t.keyBegin(at)
		row += bytes.Count(t.text[counted:begin], []byte{keyEnd})
		counted = begin
		if t.pieceAt(begin, at) {
			pass(occurrence{t, row, begin, at, at + len(pattern), t.keyEnd(at)})
		}
	}
}

// keyBegin gives where the key begins that the byte at i belongs to.
func (t *keyText) keyBegin(i int) int {
	for i > 0 && t.text[i-1] != keyEnd && t.text[i-1] != codeEnd {
		i--
	}
	return i
}

// keyEnd gives where it ends.
func (t *keyText) keyEnd(i int) int {
	for t.text[i] != keyEnd && t.text[i] != codeEnd {
		i++
	}
	return i
}
