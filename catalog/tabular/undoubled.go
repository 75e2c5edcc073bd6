package tabular

import (
	"bufio"
	"bytes"
	"io"
	"unicode"
	"unicode/utf8"
)

// stray stands for a quote mark that belongs to the text of a cell, in text
// handed to encoding/csv. No UTF-8 has this byte, and it is as long as the quote
// mark, so that offsets on both sides agree.
const stray = 0xff

// undoubler reads text whose writer put cells in quotes without doubling the
// quote marks within: "2.36" (60mm)", "1.0"". A cell that begins with a quote
// mark ends at the first one with a delimiter or a line end behind it. Doubled
// ones stay a pair, and of several before a delimiter the last closes the cell.
// Every other quote mark is made stray.
//
// A cell cannot span lines here: one that is not closed on its line cannot be
// told from a lost quote mark. The undoubler has then failed, as it has where the
// text holds a stray byte of its own.
type undoubler struct {
	src    *bufio.Reader
	comma  rune
	spaced bool // blanks before a quote mark do not count
	failed bool

	out    []byte // read, but not handed out yet
	begins bool   // a cell begins here
	quoted bool   // within a cell in quotes
}

func newUndoubler(src io.Reader, comma rune, spaced bool) *undoubler {
	return &undoubler{src: bufio.NewReaderSize(feedless{src}, chunk), comma: comma, spaced: spaced, begins: true}
}

// feedless drops form feeds, as window does, so that what stands on both sides of
// one is seen side by side.
type feedless struct{ src io.Reader }

// Read hands on what is no form feed.
func (f feedless) Read(p []byte) (int, error) {
	for {
		n, err := f.src.Read(p)
		kept := 0
		for _, b := range p[:n] {
			if b != '\f' {
				p[kept] = b
				kept++
			}
		}
		if kept > 0 || err != nil || len(p) == 0 {
			return kept, err
		}
	}
}

// Read hands text out.
func (u *undoubler) Read(p []byte) (int, error) {
	var err error
	for err == nil && len(u.out) < min(len(p), chunk) {
		err = u.step()
	}
	n := copy(p, u.out)
	u.out = u.out[:copy(u.out, u.out[n:])]
	if n > 0 {
		return n, nil
	}
	return 0, err
}

// step takes in one character, or several quote marks in a row.
func (u *undoubler) step() error {
	r, size, err := u.src.ReadRune()
	switch {
	case err != nil:
		u.failed = u.failed || u.quoted
		return err
	case r == '"':
		u.marks()
		return nil
	case r == utf8.RuneError && size == 1:
		return u.broken()
	}
	ends := r == '\n' || r == '\r'
	u.failed = u.failed || ends && u.quoted
	if !u.quoted {
		u.begins = ends || r == u.comma || u.begins && u.spaced && unicode.IsSpace(r)
	}
	u.out = utf8.AppendRune(u.out, r)
	return nil
}

// broken hands on a byte that is no UTF-8.
func (u *undoubler) broken() error {
	if err := u.src.UnreadRune(); err != nil {
		return err
	}
	b, err := u.src.ReadByte()
	u.failed = u.failed || b == stray
	u.begins = false
	u.out = append(u.out, b)
	return err
}

// marks takes in a run of quote marks, of which one has been read.
func (u *undoubler) marks() {
	n := 1
	for {
		next, err := u.src.Peek(1)
		if err != nil || next[0] != '"' || n == MaxRecord {
			break
		}
		_, _ = u.src.Discard(1) // just peeked at
		n++
	}
	if u.begins {
		u.out = append(u.out, '"')
		u.begins, u.quoted = false, true
		n--
	}
	closes := u.quoted && n > 0 && u.endAhead()
	if closes {
		n--
	}
	if u.quoted {
		u.out = append(u.out, bytes.Repeat([]byte{'"'}, n-n%2)...)
		n %= 2
	}
	u.out = append(u.out, bytes.Repeat([]byte{stray}, n)...)
	if closes {
		u.out = append(u.out, '"')
		u.quoted = false
	}
}

// endAhead reports whether a delimiter, a line end or the end of the text
// follows.
func (u *undoubler) endAhead() bool {
	next, _ := u.src.Peek(utf8.UTFMax) // fewer at the end of the text
	r, size := utf8.DecodeRune(next)
	return size == 0 || r == u.comma || r == '\n' || r == '\r'
}

// unstray makes stray bytes quote marks again.
func unstray(text []byte) []byte {
	return bytes.ReplaceAll(text, []byte{stray}, []byte{'"'})
}
