package tabular

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// encoded writes text in a character set, behind a byte order mark.
func encoded(t testing.TB, enc encoding.Encoding, bom, text string) string {
	t.Helper()
	if enc == nil {
		return bom + text
	}
	out, err := enc.NewEncoder().String(text)
	if err != nil {
		t.Fatal(err)
	}
	return bom + out
}

var utf16 = struct{ le, be encoding.Encoding }{
	le: unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM),
	be: unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM),
}

// TestSameTableInEveryDress writes one table in every character set, with every
// delimiter and line end, and wants the same rows on the same lines.
func TestSameTableInEveryDress(t *testing.T) {
	sets := []struct {
		name string
		enc  encoding.Encoding
		bom  string
	}{
		{"utf-8", nil, ""},
		{"utf-8", nil, "\xef\xbb\xbf"},
		{"utf-16le", utf16.le, "\xff\xfe"},
		{"utf-16be", utf16.be, "\xfe\xff"},
		{"utf-16le", utf16.le, ""},
		{"utf-16be", utf16.be, ""},
		{"windows-1252", charmap.Windows1252, ""},
	}
	ends := map[string]LineEnd{"\n": LF, "\r\n": CRLF, "\r": CR}
	lines := []string{
		"Lüfter, Übersicht", "",
		"Typ~Volumenstrom (m³/h)~Höhe~Notiz",
		"KX-1~„42“~25~\"zwei",
		"Zeilen\"", "", "~~~",
		"KX-2~51~25~±10 %",
	}
	for _, set := range sets {
		for _, delimiter := range []rune{',', ';', '\t', '|'} {
			for end, kind := range ends {
				text := strings.ReplaceAll(strings.Join(lines, end), "~", string(delimiter))
				t.Run(set.name+" "+DelimiterName(delimiter)+" "+string(kind), func(t *testing.T) {
					checkDress(t, encoded(t, set.enc, set.bom, text), set.name, delimiter, kind)
				})
			}
		}
	}
}

func checkDress(t *testing.T, text, set string, delimiter rune, end LineEnd) {
	f := opened(t, text, Options{})
	d := f.Dialect()
	if d.Encoding.Value != set || d.Delimiter.Value != delimiter || d.LineEnd.Value != end {
		t.Errorf("dialect = %s, %s, %s, want %s, %s, %s", d.Encoding.Value, DelimiterName(d.Delimiter.Value),
			d.LineEnd.Value, set, DelimiterName(delimiter), end)
	}
	if d.HeaderLine.Value != 3 || d.TitleLines != 1 || len(d.Notes) != 0 {
		t.Errorf("header line, titles, notes = %d, %d, %q, want 3, 1, none", d.HeaderLine.Value, d.TitleLines, d.Notes)
	}
	if want := []string{"Typ", "Volumenstrom (m³/h)", "Höhe", "Notiz"}; !slices.Equal(f.Header(), want) {
		t.Errorf("header = %q, want %q", f.Header(), want)
	}
	rows := rowsOf(t, f)
	if got, want := cellsOf(rows), []string{"KX-1|„42“|25|zwei\nZeilen", "KX-2|51|25|±10 %"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
	if got, want := linesOf(rows), []int{4, 8}; !slices.Equal(got, want) {
		t.Errorf("lines = %v, want %v", got, want)
	}
	// „42“ has six bytes more than characters in UTF-8.
	if got, want := rows[0].At(2), (Position{4, 11}); got != want {
		t.Errorf("third cell of the first row is at %v, want %v", got, want)
	}
}

func TestEncodingByName(t *testing.T) {
	const text = "\"Typ\";Řada;Größe\nKX;žluť;60\n"
	tests := []struct {
		name, encoding, want string
		enc                  encoding.Encoding
		bom                  string
	}{
		{"Latin 2", "ISO-8859-2", "iso-8859-2", charmap.ISO8859_2, ""},
		{"by a label of the WHATWG index", "latin2", "iso-8859-2", charmap.ISO8859_2, ""},
		{"by a name only IANA has", "IBM852", "ibm852", charmap.CodePage852, ""},
		{"UTF-8 under its mark", "utf-8", "utf-8", nil, "\xef\xbb\xbf"},
		{"UTF-16 in the order its mark says", "utf-16", "utf-16be", utf16.be, "\xfe\xff"},
		{"UTF-16 in the order named", "utf-16be", "utf-16be", utf16.be, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := opened(t, encoded(t, tt.enc, tt.bom, text), Options{Encoding: tt.encoding})
			if got := f.Dialect().Encoding; got.Value != tt.want || !got.Forced {
				t.Errorf("encoding = %+v, want %s, forced", got, tt.want)
			}
			if got, want := f.Header(), []string{"Typ", "Řada", "Größe"}; !slices.Equal(got, want) {
				t.Errorf("header = %q, want %q", got, want)
			}
		})
	}
}

func TestEncodingUnknown(t *testing.T) {
	for _, name := range []string{"klingon", "iso-2022-kr", " "} {
		e := refused(t, "a;b\n1;2\n", Options{Encoding: name})
		if !errors.Is(e, ErrEncoding) || !strings.Contains(e.Reason, name) || !strings.Contains(e.Hint, "windows-1252") {
			t.Errorf("%s: error = %v, hint %q, want ErrEncoding that names it and some that exist", name, e, e.Hint)
		}
	}
}

func TestEncodingDoubts(t *testing.T) {
	tests := []struct {
		name, text, encoding, want, note string
	}{
		{"one damaged letter in UTF-8", "Typ;Größe\nä;ö\nü\xff;1\n", "", "windows-1252", "line 3 is not"},
		{"the same, forced", "Typ;Größe\nä;ö\nü\xff;1\n", "utf-8", "utf-8", "the first on line 3"},
		{"bytes of an old DOS set", "Typ;Gr\x94\xe1e\nL\x81fter;60\n", "", "windows-1252", "ibm850"},
		{"lost before", "Typ;Gr\ufffdße\nKX;60\n", "", "utf-8", "the first on line 1"},
		{"plain", "Typ;Gr\xf6\xdfe\nKX;60\n", "", "windows-1252", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := opened(t, tt.text, Options{Encoding: tt.encoding}).Dialect()
			if d.Encoding.Value != tt.want {
				t.Errorf("encoding = %s, want %s", d.Encoding.Value, tt.want)
			}
			notes := strings.Join(d.Notes, "\n")
			if (tt.note == "") != (notes == "") || !strings.Contains(notes, tt.note) {
				t.Errorf("notes = %q, want one with %q", notes, tt.note)
			}
		})
	}
}

func TestNotText(t *testing.T) {
	tests := []struct {
		name, text, reason, hint string
		line                     int
	}{
		{"old spreadsheet of no known kind", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1\x00\x00", "(.xls, .doc)", "save the table as CSV or .xlsx", 0},
		{"PDF", "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", "PDF", "CSV", 0},
		{"picture", "\x89PNG\r\n\x1a\n\x00\x00", "PNG", "picture", 0},
		{"gzip", "\x1f\x8b\x08\x00\x00", "gzip", "unpack", 0},
		{"web page", "\n<!DOCTYPE html>\n<html><body>a;b</body></html>", "web page", "download", 0},
		{"UTF-32", "\xff\xfe\x00\x00a\x00\x00\x00", "UTF-32", "UTF-8", 0},
		{"a zero byte", "a;b\n1;2\r\n\r3;\x004\n", "zero byte", "CSV", 4},
		{"one in a short text", "a;b\x001", "zero byte", "CSV", 1},
		{"the same, at an even place", "ab\x00;c\n", "zero byte", "CSV", 1},
		{"deletes", "a;b\n" + strings.Repeat("1;23456\x7f", 40), "40 of its 324 bytes are control characters", "CSV", 0},
		{"control characters", strings.Repeat("a\x01;\x02b\n", 40), "80 of its 240 bytes are control characters", "CSV", 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := refused(t, tt.text, Options{})
			if !errors.Is(e, ErrNotText) || !strings.Contains(e.Reason, tt.reason) || !strings.Contains(e.Hint, tt.hint) || e.At.Line != tt.line {
				t.Errorf("error = %v, line %d, hint %q, want ErrNotText with %q, line %d, hint %q",
					e, e.At.Line, e.Hint, tt.reason, tt.line, tt.hint)
			}
		})
	}
}

// TestStrayControls: an export may well have some.
func TestStrayControls(t *testing.T) {
	f := opened(t, "a;b\n1;\x022\n\x1a", Options{})
	if got, want := cellsOf(rowsOf(t, f)), []string{"1|\x022"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
}

// TestLateByte: the character set is settled by the whole file.
func TestLateByte(t *testing.T) {
	text := "Typ;Maß\n" + strings.Repeat("KX;60\n", 100_000) + "K\xd6;60\n"
	if got := opened(t, text, Options{}).Dialect().Encoding.Value; got != "windows-1252" {
		t.Errorf("encoding = %s, want windows-1252", got)
	}
	// The letters of the first line are then read alike: ß is two bytes.
	if got := opened(t, text, Options{}).Header()[1]; got != "MaÃŸ" {
		t.Errorf("header = %q, want MaÃŸ", got)
	}
}

// TestSplitCharacters: characters and line ends that lie across two reads.
func TestSplitCharacters(t *testing.T) {
	for pad := chunk - 12; pad < chunk+4; pad++ {
		text := "a;b\r\n" + strings.Repeat("x", pad) + ";ö\r\n1;2\r3;4\r\n"
		f := opened(t, text, Options{})
		if got := f.Dialect().Encoding.Value; got != "utf-8" {
			t.Fatalf("pad %d: encoding = %s, want utf-8", pad, got)
		}
		if got, want := linesOf(rowsOf(t, f)), []int{2, 3, 4}; !slices.Equal(got, want) {
			t.Fatalf("pad %d: lines = %v, want %v", pad, got, want)
		}
	}
}
