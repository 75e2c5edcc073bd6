package tabular

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// Mark is the decimal mark of numbers; the zero Mark is not known.
type Mark byte

// The decimal marks there are.
const (
	Point Mark = '.'
	Comma Mark = ','
)

// String is the name of the mark.
func (m Mark) String() string {
	switch m {
	case Point:
		return "point"
	case Comma:
		return "comma"
	}
	return "not known"
}

// other is the mark that may part thousands where m is the decimal mark.
func (m Mark) other() Mark {
	if m == Comma {
		return Point
	}
	return Comma
}

// ParseMark reads a mark as a person gives it: the sign or its name.
func ParseMark(text string) (Mark, error) {
	switch {
	case text == "." || strings.EqualFold(text, "point"):
		return Point, nil
	case text == "," || strings.EqualFold(text, "comma"):
		return Comma, nil
	}
	return 0, fmt.Errorf("decimal mark %q is neither . (point) nor , (comma)", text)
}

// Why a text is no number. Each arrives wrapped in a [*NumberError].
var (
	ErrNoNumber  = errors.New("not a number")
	ErrGrouping  = errors.New("digits are not grouped by three")
	ErrTwoMarks  = errors.New("more than one decimal mark")
	ErrNoDigits  = errors.New("no digit behind the decimal mark")
	ErrNotFinite = errors.New("not a finite number")
	ErrMark      = errors.New("decimal mark not known")
)

// NumberError says why a text is no number.
type NumberError struct {
	Text string
	Mark Mark
	Err  error // one of the Err values above
}

func (e *NumberError) Error() string {
	if e.Err == ErrNoNumber || e.Mark == 0 {
		return fmt.Sprintf("%q: %v", e.Text, e.Err)
	}
	return fmt.Sprintf("%q, read with a decimal %v: %v", e.Text, e.Mark, e.Err)
}

// Unwrap returns the reason, for errors.Is.
func (e *NumberError) Unwrap() error { return e.Err }

// ParseNumber reads one number and nothing else, blanks around it aside: a sign
// (also U+2212), digits (also full-width), the decimal mark with digits behind
// it, an exponent. Digits before the mark may be grouped by three, all of them
// with the same sign: the other mark, an apostrophe, or a space of any width.
//
// It is strict: 1,500 is 1500 to a decimal point, and 1,50 and 0,500 are errors,
// since no one groups so. Hexadecimal, NaN and infinities are errors.
func ParseNumber(text string, mark Mark) (float64, error) {
	fail := func(err error) (float64, error) {
		return 0, &NumberError{Text: text, Mark: mark, Err: err}
	}
	var room [48]byte // longer numbers are rare, and only cost an allocation
	p := numberParser{rest: strings.Trim(fold(text), " \t\r\n"), mark: mark, plain: room[:0]}
	if err := p.read(); err != nil {
		return fail(err)
	}
	v, err := strconv.ParseFloat(string(p.plain), 64)
	if err != nil { // the form is right, so it is out of range
		return fail(ErrNotFinite)
	}
	return v, nil
}

// numberParser rewrites a number as strconv reads it.
type numberParser struct {
	rest  string
	mark  Mark
	plain []byte
}

func (p *numberParser) read() error {
	p.sign()
	switch {
	case p.digits() > 0:
		if err := p.groups(); err != nil {
			return err
		}
	case p.rest == "" || (p.rest[0] != '.' && p.rest[0] != ','):
		return p.unreadable()
	}
	if err := p.fraction(); err != nil {
		return err
	}
	p.exponent()
	if p.rest != "" {
		return p.unreadable()
	}
	return nil
}

// sign moves a sign over. Typesetters take an en dash for a minus.
func (p *numberParser) sign() {
	if rest, ok := strings.CutPrefix(p.rest, "–"); ok {
		p.plain = append(p.plain, '-')
		p.rest = rest
		return
	}
	if p.rest != "" && (p.rest[0] == '-' || p.rest[0] == '+') {
		p.plain = append(p.plain, p.rest[0])
		p.rest = p.rest[1:]
	}
}

// digits moves digits over and says how many.
func (p *numberParser) digits() int {
	n := 0
	for n < len(p.rest) && isDigit(p.rest[n]) {
		n++
	}
	p.plain = append(p.plain, p.rest[:n]...)
	p.rest = p.rest[n:]
	return n
}

// groups reads the groups of three behind the first.
func (p *numberParser) groups() error {
	first := len(p.plain)
	if !isDigit(p.plain[0]) {
		first-- // the sign
	}
	zero := p.plain[len(p.plain)-first] == '0'
	sep := byte(0)
	for p.rest != "" && p.groupSign(p.rest[0]) {
		if (p.rest[0] == ' ' || p.rest[0] == '\'') && (len(p.rest) == 1 || !isDigit(p.rest[1])) {
			break // 12 V
		}
		if p.rest[0] != ' ' && p.rest[0] != '\'' && p.mark == 0 {
			return ErrMark
		}
		if first > 3 || zero || (sep != 0 && sep != p.rest[0]) {
			return ErrGrouping
		}
		sep = p.rest[0]
		p.rest = p.rest[1:]
		if p.digits() != 3 {
			return ErrGrouping
		}
	}
	return nil
}

// groupSign reports whether c may part groups of three.
func (p *numberParser) groupSign(c byte) bool {
	return c == ' ' || c == '\'' || ((c == '.' || c == ',') && c != byte(p.mark))
}

// fraction reads the mark and what follows it.
func (p *numberParser) fraction() error {
	if p.rest == "" || p.rest[0] != byte(p.mark) || p.mark == 0 {
		if p.rest != "" && (p.rest[0] == '.' || p.rest[0] == ',') {
			return p.wrongMark()
		}
		return nil
	}
	p.plain = append(p.plain, '.')
	p.rest = p.rest[1:]
	if p.digits() == 0 {
		return ErrNoDigits
	}
	switch {
	case p.rest == "":
	case p.rest[0] == byte(p.mark):
		return ErrTwoMarks
	case p.rest[0] == byte(p.mark.other()), p.rest[0] == '\'':
		return ErrGrouping
	}
	return nil
}

// wrongMark is what is wrong with a mark that is not the decimal one.
func (p *numberParser) wrongMark() error {
	if p.mark == 0 {
		return ErrMark
	}
	return ErrGrouping
}

func (p *numberParser) exponent() {
	if p.rest == "" || (p.rest[0] != 'e' && p.rest[0] != 'E') {
		return
	}
	n := 1
	if n < len(p.rest) && (p.rest[n] == '-' || p.rest[n] == '+') {
		n++
	}
	if n == len(p.rest) || !isDigit(p.rest[n]) {
		return
	}
	p.plain = append(p.plain, p.rest[:n]...)
	p.rest = p.rest[n:]
	p.digits()
}

// unreadable tells words for what is not finite from other words.
func (p *numberParser) unreadable() error {
	switch strings.ToLower(strings.TrimLeft(p.rest, "+-")) {
	case "nan", "inf", "infinity", "∞":
		return ErrNotFinite
	}
	return ErrNoNumber
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
