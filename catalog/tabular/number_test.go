package tabular

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseNumber(t *testing.T) {
	tests := []struct {
		text string
		mark Mark
		want float64
	}{
		{"12", Point, 12}, {"12", Comma, 12}, {"12", 0, 12}, {"0", Comma, 0}, {"007", Point, 7},
		{"1.5", Point, 1.5}, {"1,5", Comma, 1.5}, {"0,05", Comma, 0.05}, {".5", Point, 0.5}, {",5", Comma, 0.5},
		{"1,500", Point, 1500}, {"1.500", Comma, 1500}, {"1.500", Point, 1.5}, {"1,500", Comma, 1.5},
		{"1.234.567,89", Comma, 1234567.89}, {"1,234,567.89", Point, 1234567.89}, {"0.500", Point, 0.5},
		{"1 500,5", Comma, 1500.5}, {"1 500", Comma, 1500}, {"1 234 567", 0, 1234567}, {"12 345.6", Point, 12345.6},
		{"1'500.5", Point, 1500.5}, {"1’500.5", Point, 1500.5}, {"1'500", 0, 1500},
		{"1\u00a0500,5", Comma, 1500.5}, {"1\u2009500,5", Comma, 1500.5}, {"1\u202f500,5", Comma, 1500.5},
		{"-3,5", Comma, -3.5}, {"+3,5", Comma, 3.5}, {"\u22123,5", Comma, -3.5}, {"\u20133,5", Comma, -3.5}, {"－3", Comma, -3},
		{"１２．５", Point, 12.5}, {"１，５００", Point, 1500},
		{"1.5e3", Point, 1500}, {"1,5E-3", Comma, 0.0015}, {"2e+2", Point, 200}, {"1e\u22122", Point, 0.01},
		{" 12,5 ", Comma, 12.5}, {"\u00a012\t", Comma, 12},
		{strings.Repeat("9", 60), Point, 1e60},
	}
	for _, tt := range tests {
		got, err := ParseNumber(tt.text, tt.mark)
		if err != nil || math.Abs(got-tt.want) > 1e-15*math.Abs(tt.want) {
			t.Errorf("ParseNumber(%q, %v) = %v, %v, want %v", tt.text, tt.mark, got, err, tt.want)
		}
	}
}

func TestParseNumberRefuses(t *testing.T) {
	tests := []struct {
		text string
		mark Mark
		want error
	}{
		{"", Point, ErrNoNumber}, {" ", Point, ErrNoNumber}, {"-", Point, ErrNoNumber}, {"V", Point, ErrNoNumber},
		{"12 V", Point, ErrNoNumber}, {"12V", Point, ErrNoNumber}, {"12 – 13", Point, ErrNoNumber}, {"60x25", Point, ErrNoNumber},
		{"--5", Point, ErrNoNumber}, {"- 5", Point, ErrNoNumber}, {"5-", Point, ErrNoNumber}, {"1_000", Point, ErrNoNumber},
		{"1e", Point, ErrNoNumber}, {"1e+", Point, ErrNoNumber}, {"1.5e1.5", Point, ErrNoNumber}, {"5²", Point, ErrNoNumber},
		{"½", Point, ErrNoNumber}, {"٣", Point, ErrNoNumber}, {"0x1F", Point, ErrNoNumber}, {"0x1p-2", Point, ErrNoNumber},
		{"NaN", Point, ErrNotFinite}, {"-Inf", Point, ErrNotFinite}, {"+infinity", Point, ErrNotFinite}, {"∞", Point, ErrNotFinite},
		{"1e999", Point, ErrNotFinite}, {"-1e999", Comma, ErrNotFinite},
		{"1,2,3", Point, ErrGrouping}, {"1,50", Point, ErrGrouping}, {"1.50", Comma, ErrGrouping}, {"0,500", Point, ErrGrouping},
		{"1234,567", Point, ErrGrouping}, {"1,5000", Point, ErrGrouping}, {"1,500,00", Point, ErrGrouping}, {"1,500,", Point, ErrGrouping},
		{"1.234 567,8", Comma, ErrGrouping}, {"1 234.567,8", Comma, ErrGrouping}, {"12 34", Point, ErrGrouping}, {"1''500", Point, ErrNoNumber},
		{"1.5,000", Point, ErrGrouping}, {",5", Point, ErrGrouping}, {"1,00,000", Point, ErrGrouping}, {"12.03.2024", Comma, ErrGrouping},
		{"1.2.3", Point, ErrTwoMarks}, {"1,2,3", Comma, ErrTwoMarks}, {"1.234.567", Point, ErrTwoMarks},
		{"5.", Point, ErrNoDigits}, {"1..5", Point, ErrNoDigits}, {".", Point, ErrNoDigits},
		{"1.5", 0, ErrMark}, {"1,500", 0, ErrMark}, {".5", 0, ErrMark}, {"1 500,5", 0, ErrMark},
	}
	for _, tt := range tests {
		got, err := ParseNumber(tt.text, tt.mark)
		var e *NumberError
		if !errors.Is(err, tt.want) || !errors.As(err, &e) || e.Text != tt.text || got != 0 {
			t.Errorf("ParseNumber(%q, %v) = %v, %v, want %v", tt.text, tt.mark, got, err, tt.want)
		}
	}
}

func TestNumberErrorText(t *testing.T) {
	for want, e := range map[string]*NumberError{
		`"12 V": not a number`: {"12 V", Comma, ErrNoNumber},
		`"1.50", read with a decimal comma: digits are not grouped by three`: {"1.50", Comma, ErrGrouping},
		`"1.5": decimal mark not known`:                                      {"1.5", 0, ErrMark},
	} {
		if got := e.Error(); got != want {
			t.Errorf("Error() = %s, want %s", got, want)
		}
	}
}

func TestParseMark(t *testing.T) {
	for text, want := range map[string]Mark{".": Point, ",": Comma, "point": Point, "Comma": Comma} {
		if got, err := ParseMark(text); err != nil || got != want {
			t.Errorf("ParseMark(%q) = %v, %v, want %v", text, got, err, want)
		}
		if again, err := ParseMark(want.String()); err != nil || again != want {
			t.Errorf("ParseMark(%q) = %v, %v, want %v", want.String(), again, err, want)
		}
	}
	for _, text := range []string{"", ";", "dot,"} {
		if got, err := ParseMark(text); err == nil {
			t.Errorf("ParseMark(%q) = %v, want an error", text, got)
		}
	}
	if got := Mark(0).String(); got != "not known" {
		t.Errorf("no mark is called %q, want not known", got)
	}
}

// TestWrittenNumbers: what is written with any mark and grouping is read back.
func TestWrittenNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.Uint64Range(0, 1<<40).Draw(t, "whole")
		fraction := rapid.StringMatching(`[0-9]{0,6}`).Draw(t, "fraction")
		mark := rapid.SampledFrom([]Mark{Point, Comma}).Draw(t, "mark")
		sep := rapid.SampledFrom([]string{"", " ", "\u00a0", "\u2009", "'", "’", string(byte(mark.other()))}).Draw(t, "sep")
		sign := rapid.SampledFrom([]string{"", "-", "+", "\u2212"}).Draw(t, "sign")

		digits := strconv.FormatUint(whole, 10)
		text, plain := sign+grouped(digits, sep), strings.Replace(sign, "\u2212", "-", 1)+digits
		if fraction != "" {
			text += string(byte(mark)) + fraction
			plain += "." + fraction
		}
		want, err := strconv.ParseFloat(plain, 64)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := ParseNumber(text, mark); err != nil || got != want {
			t.Fatalf("ParseNumber(%q, %v) = %v, %v, want %v", text, mark, got, err, want)
		}
	})
}

func grouped(digits, sep string) string {
	if len(digits) <= 3 {
		return digits
	}
	n := len(digits) - 3
	return grouped(digits[:n], sep) + sep + digits[n:]
}
