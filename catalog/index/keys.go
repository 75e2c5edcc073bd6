package index

import (
	"bytes"
	"encoding/binary"
	"errors"
	"unicode/utf8"
)

// Part numbers and other codes are no words: nearly every one is different,
// and a list of rows for each would be as long as all of them together. They
// are kept as they are compared, folded and without separators, one row behind
// the other, and looked through from end to end: some twenty bytes a row.

// keyEnd ends the keys of a row, codeEnd one of its codes. Neither is a letter
// or a digit, so no asked word holds them.
const (
	keyEnd  = '\n'
	codeEnd = '\r'
)

// KeyWriter collects the part numbers and codes of some rows.
type KeyWriter struct {
	rows         int
	parts, codes keyText
}

// keyText is folded text without separators. A bit for each byte says whether
// one stood before it.
type keyText struct {
	text []byte
	cuts []byte
}

// Add adds a row.
func (w *KeyWriter) Add(part string, codes ...string) {
	w.rows++
	w.parts.add(part)
	w.parts.end(keyEnd)
	for _, code := range codes {
		w.codes.add(code)
		w.codes.end(codeEnd)
	}
	w.codes.end(keyEnd)
}

// Take gives what was collected, in the form in which a [Chunk] has it, and
// begins anew.
func (w *KeyWriter) Take() []byte {
	b := binary.AppendUvarint(nil, uint64(w.rows))
	for _, t := range []*keyText{&w.parts, &w.codes} {
		b = binary.AppendUvarint(b, uint64(len(t.text)))
		b = append(append(b, t.text...), t.cuts...)
		t.text, t.cuts = t.text[:0], t.cuts[:0]
	}
	w.rows = 0
	return b
}

func (t *keyText) add(code string) {
	if isASCII(code) {
		t.addASCII(code)
		return
	}
	plain, _ := fold(code)
	for i, p := range cut(plain) {
		if i > 0 && !p.joined {
			t.separate()
		}
		t.text = append(t.text, p.text...)
	}
}

// addASCII does the same without memory of its own.
func (t *keyText) addASCII(code string) {
	begin, separated := len(t.text), false
	for i := range len(code) {
		c := code[i]
		if asciiClass(c) == separator {
			separated = true
			continue
		}
		if separated && len(t.text) > begin {
			t.separate()
		}
		separated = false
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		t.text = append(t.text, c)
	}
}

func (t *keyText) end(mark byte) {
	t.text = append(t.text, mark)
	t.grow()
}

// separate notes that a separator stands before the next byte.
func (t *keyText) separate() {
	at := len(t.text)
	for len(t.cuts) <= at/8 {
		t.cuts = append(t.cuts, 0)
	}
	t.cuts[at/8] |= 1 << (at % 8)
}

func (t *keyText) grow() {
	for len(t.cuts) < cutBytes(len(t.text)) {
		t.cuts = append(t.cuts, 0)
	}
}

func cutBytes(text int) int { return (text + 7) / 8 }

// errKeys says that the keys of a chunk do not have their form.
var errKeys = errors.New("its part numbers have no valid form")

// keys are the part numbers and codes of a chunk.
type keys struct {
	rows         int
	parts, codes keyText
}

func readKeys(b []byte) (k keys, err error) {
	rows, n := binary.Uvarint(b)
	if n <= 0 {
		return k, errKeys
	}
	b = b[n:]
	for _, t := range []*keyText{&k.parts, &k.codes} {
		size, n := binary.Uvarint(b)
		if n <= 0 || size > uint64(len(b)) || len(b)-n < int(size)+cutBytes(int(size)) {
			return k, errKeys
		}
		b = b[n:]
		t.text, b = b[:size], b[size:]
		t.cuts, b = b[:cutBytes(int(size))], b[cutBytes(int(size)):]
		if uint64(bytes.Count(t.text, []byte{keyEnd})) != rows || size > 0 && t.text[size-1] != keyEnd {
			return k, errKeys
		}
	}
	k.rows = int(rows)
	if len(b) > 0 {
		return k, errKeys
	}
	return k, nil
}

// separated says whether a separator stood before the byte at i.
func (t *keyText) separated(i int) bool { return t.cuts[i/8]>>(i%8)&1 == 1 }

// pieceAt says whether a piece begins at i, of a key that begins at begin.
func (t *keyText) pieceAt(begin, i int) bool {
	if i == begin || t.separated(i) {
		return true
	}
	here, _ := utf8.DecodeRune(t.text[i:])
	before, _ := utf8.DecodeLastRune(t.text[:i])
	c := classOf(here)
	return c == ideograph || c != classOf(before)
}

// wordAt says whether a word begins at i, of a key that begins at begin.
func (t *keyText) wordAt(begin, i int) bool { return i == begin || t.separated(i) }

// pieceEnd gives where the piece that begins at i ends, of a key that ends at
// end.
func (t *keyText) pieceEnd(i, end int) int {
	for _, size := utf8.DecodeRune(t.text[i:]); ; _, size = utf8.DecodeRune(t.text[i:]) {
		if i += size; i >= end || t.pieceAt(-1, i) {
			return min(i, end)
		}
	}
}

// wordEnd gives where the word that begins at i ends, of a key that ends at
// end.
func (t *keyText) wordEnd(i, end int) int {
	for i++; i < end && !t.separated(i); i++ {
	}
	return i
}

// clipped gives where the text from i to end is cut for its length.
func (t *keyText) clipped(i, end int) int {
	if end-i <= maxTerm {
		return end
	}
	return i + len(clip(string(t.text[i:i+maxTerm+1])))
}
