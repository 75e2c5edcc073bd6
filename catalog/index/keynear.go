package index

import (
	"slices"
	"unicode/utf8"
)

// nearPart finds the rows whose part number is at most one typing error from a
// text: a character more, less or other, or two exchanged.
func (k *keys) nearPart(text string) rowSet {
	set, near := newRowSet(k.rows), newTypo(text)
	k.parts.keys(func(row, begin, end int) {
		if near.is(k.parts.text[begin:k.parts.clipped(begin, end)]) {
			set.add(row)
		}
	})
	return set
}

// nearWord finds the rows one word of whose part number or codes is.
func (k *keys) nearWord(text string) rowSet {
	set, near := newRowSet(k.rows), newTypo(text)
	k.parts.keys(func(row, begin, end int) {
		if near.isAny(&k.parts, begin, end, true) {
			set.add(row)
		}
	})
	k.codes.keys(func(row, begin, end int) {
		if near.is(k.codes.text[begin:k.codes.clipped(begin, end)]) || near.isAny(&k.codes, begin, end, false) {
			set.add(row)
		}
	})
	return set
}

// keys passes all keys, of rows that have one.
func (t *keyText) keys(pass func(row, begin, end int)) {
	row := 0
	for begin := 0; begin < len(t.text); {
		end := t.keyEnd(begin)
		if end > begin {
			pass(row, begin, end)
		}
		if t.text[end] == keyEnd {
			row++
		}
		begin = end + 1
	}
}

// typo compares texts with one text, but for one typing error.
type typo struct {
	text  []byte
	runes []rune // of the text; nil where each byte is one
}

func newTypo(text string) *typo {
	t := &typo{text: []byte(text)}
	if !isASCII(text) {
		t.runes = []rune(text)
	}
	return t
}

// isAny says whether a word of the key from begin to end is the text, but for
// one error.
func (t *typo) isAny(of *keyText, begin, end int, tails bool) bool {
	if end-begin <= maxTerm && isASCII(of.text[begin:end]) {
		return t.isAnyASCII(of, begin, end, tails)
	}
	is := func(i, stop int) bool { return t.is(of.text[i:of.clipped(i, stop)]) }
	pieces := 0
	for i := begin; i < end; pieces++ {
		next := of.pieceEnd(i, end)
		if is(i, next) || of.wordAt(begin, i) && is(i, of.wordEnd(i, end)) || tails && pieces > 0 && pieces <= maxTails && is(i, end) {
			return true
		}
		i = next
	}
	return false
}

// isAnyASCII does the same for a short key of which each byte is a character, in
// one pass: all keys of a catalogue go through here.
func (t *typo) isAnyASCII(of *keyText, begin, end int, tails bool) bool {
	is := func(i, stop int) bool {
		d := stop - i - len(t.text)
		return d >= -utf8.UTFMax && d <= 1 && t.is(of.text[i:stop])
	}
	word, piece, pieces := begin, begin, 0
	for i := begin + 1; i <= end; i++ {
		separated := i == end || of.separated(i)
		if !separated && asciiClasses[of.text[i]] == asciiClasses[of.text[i-1]] {
			continue
		}
		if is(piece, i) || separated && word < piece && is(word, i) {
			return true
		}
		if pieces++; tails && i < end && pieces <= maxTails && is(i, end) {
			return true
		}
		piece = i
		if separated {
			word = i
		}
	}
	return false
}

// asciiClasses holds the class of every byte below 0x80.
var asciiClasses = func() (classes [utf8.RuneSelf]class) {
	for b := range classes {
		classes[b] = asciiClass(byte(b))
	}
	return classes
}()

// is says whether other is the text, but for at most one error.
func (t *typo) is(other []byte) bool {
	if d := len(other) - len(t.text); d > utf8.UTFMax || d < -utf8.UTFMax {
		return false
	}
	if t.runes == nil && isASCII(other) {
		return oneOff(t.text, other)
	}
	return oneOff([]rune(string(t.text)), []rune(string(other)))
}

// oneOff says whether one insertion, deletion, substitution or exchange of
// neighbours at the most makes b of a.
func oneOff[T byte | rune](a, b []T) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 {
		return false
	}
	n := 0
	for n < len(a) && a[n] == b[n] {
		n++
	}
	switch {
	case len(a) < len(b):
		return slices.Equal(a[n:], b[n+1:])
	case n == len(a):
		return true
	case n+1 < len(a) && a[n] == b[n+1] && a[n+1] == b[n] && slices.Equal(a[n+2:], b[n+2:]):
		return true
	}
	return slices.Equal(a[n+1:], b[n+1:])
}
