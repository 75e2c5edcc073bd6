package tabular

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// eachNumber calls visit with every number in a cell that holds a point or a
// comma between digits: alone, with a unit, in a range or a product. The number
// comes folded and without sign. Digits that hang on letters (KX-12.5, Rev.2.1)
// belong to a name and are passed over; so are dates by what they look like to
// classify.
func eachNumber(cell string, visit func(token string)) {
	if !mayHoldMark(cell) {
		return
	}
	t := tokenizer{text: fold(cell)}
	for t.next() {
		if !t.named && strings.ContainsAny(t.token, ".,") {
			visit(t.token)
		}
	}
}

// mayHoldMark is a quick look for a point or a comma, plain or full-width: the
// latter begin with the byte EF.
func mayHoldMark(cell string) bool {
	for i := 0; i < len(cell); i++ {
		if c := cell[i]; c == '.' || c == ',' || c == 0xef {
			return true
		}
	}
	return false
}

// tokenizer finds the numbers of a folded text.
type tokenizer struct {
	text  string
	at    int
	token string
	named bool // the number hangs on letters
	end   int  // of the number before

	group  int  // where the group of digits begins
	marked bool // the number has a point or a comma
}

// next finds the next number.
func (t *tokenizer) next() bool {
	for t.at < len(t.text) {
		if isDigit(t.text[t.at]) || t.bareFraction() {
			t.take()
			return true
		}
		t.at++
	}
	return false
}

// bareFraction reports whether a number without a digit before its mark begins
// here: .5 does, the last point of 10...13 does not.
func (t *tokenizer) bareFraction() bool {
	if c := t.text[t.at]; (c != '.' && c != ',') || !t.digitAt(t.at+1) {
		return false
	}
	r, _ := utf8.DecodeLastRuneInString(t.text[:t.at])
	return t.at == 0 || (r != '.' && r != ',' && !unicode.IsLetter(r))
}

func (t *tokenizer) digitAt(i int) bool { return i < len(t.text) && isDigit(t.text[i]) }

// take cuts the number that begins here.
func (t *tokenizer) take() {
	from := t.at
	t.named = t.hangsOnName(from)
	t.group, t.marked = from, false
	for t.at < len(t.text) && t.belongs() {
		t.at++
	}
	t.token = t.text[from:t.at]
	t.end = t.at
}

// belongs reports whether the byte here is part of the number.
func (t *tokenizer) belongs() bool {
	switch c := t.text[t.at]; c {
	case '.', ',':
		t.marked = true
		return t.digitAt(t.at + 1)
	case ' ', '\'':
		digits := t.at - t.group
		t.group = t.at + 1
		return !t.marked && digits >= 1 && digits <= 3 && t.threeDigits(t.at+1)
	default:
		return isDigit(c)
	}
}

// threeDigits reports whether exactly three digits stand at i.
func (t *tokenizer) threeDigits(i int) bool {
	return t.digitAt(i) && t.digitAt(i+1) && t.digitAt(i+2) && !t.digitAt(i+3)
}

// hangsOnName looks at what stands right before a number.
func (t *tokenizer) hangsOnName(i int) bool {
	before := t.text[t.end:i]
	if t.end > 0 && before != "" && strings.Trim(before, "-/_.xX") == "" {
		return t.named // 60x60.5 is a product, KX1-12.5 a name
	}
	r, size := utf8.DecodeLastRuneInString(before)
	if r == '-' || r == '.' || r == ',' {
		r, _ = utf8.DecodeLastRuneInString(before[:len(before)-size])
	}
	switch r {
	case 'Ø', 'ø':
		return false
	case '_', '#':
		return true
	}
	return unicode.IsLetter(r)
}
