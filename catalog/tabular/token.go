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
	if !strings.ContainsAny(cell, ".,") && !strings.ContainsAny(cell, "．，") {
		return
	}
	t := tokenizer{text: fold(cell)}
	for t.next() {
		if !t.named && strings.ContainsAny(t.token, ".,") {
			visit(t.token)
		}
	}
}

// tokenizer finds the numbers of a folded text.
type tokenizer struct {
	text  string
	at    int
	token string
	named bool // the number hangs on letters
	end   int  // of the number before
}

// next finds the next number.
func (t *tokenizer) next() bool {
	for t.at < len(t.text) {
		c := t.text[t.at]
		if isDigit(c) || ((c == '.' || c == ',') && t.digitAt(t.at+1)) {
			t.take()
			return true
		}
		t.at++
	}
	return false
}

func (t *tokenizer) digitAt(i int) bool { return i < len(t.text) && isDigit(t.text[i]) }

// take cuts the number that begins here.
func (t *tokenizer) take() {
	from := t.at
	t.named = t.hangsOnName(from)
	for t.at < len(t.text) && t.belongs(from) {
		t.at++
	}
	t.token = strings.TrimRight(t.text[from:t.at], ".,' ")
	t.end = t.at
}

// belongs reports whether the byte here is part of the number from from on.
func (t *tokenizer) belongs(from int) bool {
	switch c := t.text[t.at]; c {
	case '.', ',':
		return t.digitAt(t.at + 1)
	case ' ', '\'':
		return t.at > from && t.threeDigits(t.at+1) && t.groupBefore(from)
	default:
		return isDigit(c)
	}
}

// threeDigits reports whether exactly three digits stand at i.
func (t *tokenizer) threeDigits(i int) bool {
	return t.digitAt(i) && t.digitAt(i+1) && t.digitAt(i+2) && !t.digitAt(i+3)
}

// groupBefore reports whether one to three digits, and no mark, stand since from
// or since the last sign between groups.
func (t *tokenizer) groupBefore(from int) bool {
	group := t.text[from:t.at]
	if strings.ContainsAny(group, ".,") {
		return false
	}
	group = group[strings.LastIndexAny(group, " '")+1:]
	return len(group) >= 1 && len(group) <= 3
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
