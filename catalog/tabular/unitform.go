package tabular

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestUnit is the most bytes of a unit that a number format shows.
const longestUnit = 20

// unitOf gives the unit or the currency that a format code shows beside every
// number: it says what the number is, as 24.5 shown as 24.5 CFM. It is empty where
// there is none, and where a number is shown as another than it is, in percent.
func unitOf(code string) string {
	u := unitScan{rest: code}
	for u.step() {
	}
	unit := strings.TrimSpace(string(u.behind))
	if unit == "" {
		unit = strings.TrimSpace(string(u.currency))
	}
	if u.percent || len(unit) > longestUnit || strings.IndexFunc(unit, namesUnit) < 0 {
		return ""
	}
	return unit
}

// general is the word of format codes for a number as it is.
const general = "general"

// namesUnit says which characters a unit or a currency is made of, beside others.
func namesUnit(r rune) bool {
	return unicode.IsLetter(r) || unicode.Is(unicode.Sc, r) || strings.ContainsRune("°\"″%", r)
}

// unitScan takes the first section of a format code apart for its texts.
type unitScan struct {
	rest     string
	digits   bool   // have begun
	percent  bool   // the number is shown a hundredfold
	behind   []byte // texts behind the digits
	currency []byte // before them
}

// step takes the next sign, and reports whether there is more.
func (u *unitScan) step() bool {
	if u.rest == "" || u.rest[0] == ';' {
		return false
	}
	if len(u.rest) >= len(general) && strings.EqualFold(u.rest[:len(general)], general) {
		u.rest, u.digits = u.rest[len(general):], true
		return true
	}
	first, size := utf8.DecodeRuneInString(u.rest)
	u.rest = u.rest[size:]
	switch first {
	case '"':
		var text string
		text, u.rest, _ = strings.Cut(u.rest, `"`)
		u.add(text)
	case '[':
		var inside string
		inside, u.rest, _ = strings.Cut(u.rest, "]")
		if symbol, ok := strings.CutPrefix(inside, "$"); ok {
			symbol, _, _ = strings.Cut(symbol, "-")
			u.add(symbol)
		}
	case '\\':
		_, size := utf8.DecodeRuneInString(u.rest)
		u.add(u.rest[:size])
		u.rest = u.rest[size:]
	case '_', '*':
		_, size := utf8.DecodeRuneInString(u.rest)
		u.rest = u.rest[size:]
	case '0', '#', '?':
		u.digits = true
	case '%':
		u.percent = true
	case ' ', '$':
		u.add(string(first))
	default:
		if first >= utf8.RuneSelf {
			u.add(string(first))
		}
	}
	return true
}

// add takes a text that is shown. Before the digits it is a currency or no unit.
func (u *unitScan) add(text string) {
	switch {
	case u.digits:
		u.behind = append(u.behind, text...)
	case strings.IndexFunc(text, func(r rune) bool { return unicode.Is(unicode.Sc, r) }) >= 0, isCurrencyCode(strings.TrimSpace(text)):
		u.currency = append(u.currency, text...)
	}
}

// isCurrencyCode says whether a text may be the code of a currency, ISO 4217: three
// capitals.
func isCurrencyCode(text string) bool {
	return len(text) == 3 && strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}
