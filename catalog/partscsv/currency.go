package partscsv

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// currencies are the signs and names of currencies and their ISO 4217 codes.
// The dollar is taken for the US dollar, which the column report says.
var currencies = []struct{ sign, code string }{
	{"US$", "USD"}, {"C$", "CAD"}, {"CA$", "CAD"}, {"A$", "AUD"}, {"AU$", "AUD"}, {"$", "USD"},
	{"€", "EUR"}, {"£", "GBP"}, {"¥", "JPY"}, {"zł", "PLN"}, {"Kč", "CZK"}, {"Ft", "HUF"},
	{"EURO", "EUR"}, {"EUROS", "EUR"}, {"Fr.", "CHF"}, {"SFr.", "CHF"},
	{"EUR", "EUR"}, {"USD", "USD"}, {"GBP", "GBP"}, {"CHF", "CHF"}, {"JPY", "JPY"}, {"CNY", "CNY"}, {"RMB", "CNY"},
	{"SEK", "SEK"}, {"NOK", "NOK"}, {"DKK", "DKK"}, {"PLN", "PLN"}, {"CZK", "CZK"}, {"HUF", "HUF"}, {"RON", "RON"},
	{"CAD", "CAD"}, {"AUD", "AUD"}, {"NZD", "NZD"}, {"MXN", "MXN"}, {"ARS", "ARS"}, {"CLP", "CLP"}, {"COP", "COP"},
	{"BRL", "BRL"}, {"INR", "INR"}, {"KRW", "KRW"}, {"TWD", "TWD"}, {"HKD", "HKD"}, {"SGD", "SGD"}, {"TRY", "TRY"}, {"ZAR", "ZAR"},
}

// currencyAt gives the currency that a text begins with, and how many bytes
// its sign takes.
func currencyAt(text string) (code string, size int) {
	for _, c := range currencies {
		if len(c.sign) <= size || len(text) < len(c.sign) || !strings.EqualFold(text[:len(c.sign)], c.sign) {
			continue
		}
		last, _ := utf8.DecodeLastRuneInString(c.sign)
		next, n := utf8.DecodeRuneInString(text[len(c.sign):])
		if n > 0 && unicode.IsLetter(last) && unicode.IsLetter(next) {
			continue
		}
		code, size = c.code, len(c.sign)
	}
	return code, size
}

// currencyIn finds a currency in a text and cuts it out.
func currencyIn(text string) (code, rest string) {
	for i, r := range text {
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		if i > 0 && unicode.IsLetter(r) && unicode.IsLetter(before) {
			continue
		}
		if code, size := currencyAt(text[i:]); size > 0 {
			return code, text[:i] + " " + text[i+size:]
		}
	}
	return "", text
}

// isCode says whether a text is a currency's code or sign alone.
func currencyCode(text string) (string, bool) {
	code, size := currencyAt(text)
	return code, size > 0 && size == len(text)
}
