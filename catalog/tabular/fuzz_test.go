package tabular

import (
	"context"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// FuzzRows reads any bytes. Whatever is accepted must lose nothing: the raw rows
// stand in the text one behind the other, with nothing but blank lines between.
func FuzzRows(f *testing.F) {
	for _, text := range []string{
		"", "\n", "a", "a;b\n1;2\n", "a,b\r\n1,\"2\r\n3\"\r\n", "a\tb\r1\t2\r\r3\t4", "sep=|\na|b\n1|2",
		"Liste\n\nTyp;U;Q;\n;V;m³/h;\nA;12,5;1.500;\nB;12\n;;;\nC;1;2;3;4\n", "a;b\n2.36\" (60mm);1\n\"x\ny\";2\n",
		"a, \"b\"\n1, \"2\n3\"\n", "a;b\n1;\"2\n3;4\n", "a;b\n1;2\"\n3;\"4\n5;\"6\"\n", "a\f;b\n\f\n1\f;2\n",
		"\xef\xbb\xbfa;b\n1;2\n", "\xff\xfea\x00;\x00b\x00\n\x001\x00;\x002\x00", "\x00a\x00;\x00b\x00\n\x001\x00;\x002",
		"a;b\n\xe4;\xf6\n", "a;b\n\x1a1;\x01\n\x1a", "PK\x03\x04", "%PDF-1.4", "<html>", "a;a;;a (2)\n1;2;3;4\n", "\"\n\";\"\"\n1;2\n",
		"a;b;c\n\"2.36\"\";A;\"1\"\"\n\"3\";\"\"x\";2\"\n", "\n\"\"\"\n0", ",0\n\f\"",
	} {
		f.Add([]byte(text), byte(0), byte(0))
		f.Add([]byte(text), byte(1), byte(2))
	}
	delimiters := []rune{0, ';', ',', '\t', '|', NoDelimiter, 'é', ' '}
	f.Fuzz(func(t *testing.T, data []byte, delimiter, headerLine byte) {
		opts := Options{Delimiter: delimiters[int(delimiter)%len(delimiters)], HeaderLine: int(headerLine % 8)}
		file, err := Open(context.Background(), "fuzz.csv", strings.NewReader(string(data)), int64(len(data)), opts)
		if err != nil {
			checkRefusal(t, err)
			return
		}
		text := plainText(t, file)
		rows := rowsOf(t, file)
		checkNothingLost(t, file, text, rows)
		checkCells(t, file, rows)
		checkAgainstCSV(t, file, text)
	})
}

// checkRefusal wants an error of a kind that the package names.
func checkRefusal(t *testing.T, err error) {
	kinds := []error{ErrNotText, ErrEmpty, ErrNoRows, ErrHeaderLine, ErrUnclosedQuote, ErrTooLong, ErrTooWide, ErrDamaged, ErrLocked, ErrTooLarge, ErrSheet, ErrDelimiter}
	var e *Error
	if !errors.As(err, &e) || !slices.ContainsFunc(kinds, func(k error) bool { return errors.Is(err, k) }) {
		t.Fatalf("error = %v (%T), want a typed one", err, err)
	}
}

// plainText is the text as the rows see it.
func plainText(t *testing.T, f *File) string {
	text, err := io.ReadAll(f.text())
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(text), "\f", "")
}

// checkNothingLost finds titles, header and rows in the text, in this order, on
// the lines they claim, with only blank lines between them.
func checkNothingLost(t *testing.T, f *File, text string, rows []*Row) {
	all := append(slices.Clone(f.Titles()), f.HeaderRow())
	all = append(all, rows...)
	at := 0
	for i, r := range all {
		raw := r.Raw()
		n := strings.Index(text[at:], raw)
		for n >= 0 && 1+countLineEnds([]byte(text[:at+n])) != r.Line {
			more := strings.Index(text[at+n+1:], raw) // the same text may stand in a blank line
			if more < 0 {
				n = -1
			} else {
				n += 1 + more
			}
		}
		if n < 0 {
			t.Fatalf("row %d, %q, is not on line %d of %q", i, raw, r.Line, text)
		}
		checkGap(t, f, text[at:at+n])
		at += n + len(raw)
	}
	checkGap(t, f, text[at:])
}

// checkGap wants nothing but what makes no row.
func checkGap(t *testing.T, f *File, gap string) {
	drop := blanks + `"` + string(candidates)
	if d := f.Dialect().Delimiter.Value; d != NoDelimiter {
		drop += string(d)
	}
	gap = strings.TrimLeft(gap, "\"")
	if len(gap) >= 4 && strings.EqualFold(gap[:4], "sep=") {
		_, gap, _ = strings.Cut(strings.ReplaceAll(gap, "\r", "\n"), "\n")
	}
	if strings.Trim(gap, drop) != "" {
		t.Fatalf("lost between rows: %q", gap)
	}
}

// checkCells wants rows that agree with themselves, and numbers that do not panic.
func checkCells(t *testing.T, f *File, rows []*Row) {
	names := slices.Clone(f.Header())
	slices.Sort(names)
	if len(slices.Compact(names)) != len(f.Header()) {
		t.Fatalf("header %q is not unique", f.Header())
	}
	ragged := 0
	for _, r := range rows {
		if r.Ragged {
			ragged++
		} else if len(r.Fields) != len(f.Header()) {
			t.Fatalf("row %q for header %q", r.Fields, f.Header())
		}
		for i, c := range r.Fields {
			if p := r.At(i); p.Line < r.Line || p.Column < 0 {
				t.Fatalf("cell %d of the row on line %d is at %v", i, r.Line, p)
			}
			for _, m := range []Mark{0, Point, Comma} {
				if v, err := ParseNumber(c, m); err != nil && v != 0 {
					t.Fatalf("ParseNumber(%q, %v) = %v, %v", c, m, v, err)
				}
			}
		}
	}
	if n, r := f.RowCount(); n != len(rows) || r != ragged {
		t.Fatalf("row count = %d, %d ragged, want %d, %d", n, r, len(rows), ragged)
	}
}

// checkAgainstCSV reads the text with encoding/csv alone and wants the same cells.
func checkAgainstCSV(t *testing.T, f *File, text string) {
	if f.quoting.undoubled {
		checkUndoubled(t, f, text)
		return
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	c := csv.NewReader(strings.NewReader(text))
	c.Comma = comma(f.Dialect().Delimiter.Value)
	c.FieldsPerRecord = -1
	c.LazyQuotes = f.quoting.lenient
	c.TrimLeadingSpace = f.quoting.spaced
	want, err := c.ReadAll()
	if err != nil {
		t.Fatalf("encoding/csv refuses what was accepted: %v", err)
	}
	records := f.records(context.Background())
	for _, w := range want {
		if err := records.next(); err != nil {
			t.Fatalf("next = %v, want %q", err, w)
		}
		if !slices.Equal(records.fields, w) {
			t.Fatalf("cells = %q, want %q as encoding/csv has them", records.fields, w)
		}
	}
	if err := records.next(); err != io.EOF {
		t.Fatalf("next = %q, %v, want the end", records.fields, err)
	}
}

// checkUndoubled cuts the lines one by one, where quote marks are not doubled.
func checkUndoubled(t *testing.T, f *File, text string) {
	records := f.records(context.Background())
	for line := range strings.SplitSeq(strings.ReplaceAll(text, "\r", "\n"), "\n") {
		want := undoubledCells(line, string(comma(f.Dialect().Delimiter.Value)), f.quoting.spaced)
		if line == "" {
			continue // encoding/csv steps over it
		}
		if err := records.next(); err != nil || !slices.Equal(records.fields, want) {
			t.Fatalf("cells = %q, %v, want %q", records.fields, err, want)
		}
	}
	if err := records.next(); err != io.EOF {
		t.Fatalf("next = %q, %v, want the end", records.fields, err)
	}
}

// undoubledCells is the rule in plain words: a cell that begins with a quote mark
// goes on to the first that stands before a delimiter or at the end of the line.
func undoubledCells(line, comma string, spaced bool) []string {
	var cells []string
	for {
		if spaced {
			line = strings.TrimLeftFunc(line, unicode.IsSpace)
		}
		end := strings.Index(line+comma, comma)
		cell := line[:end]
		if strings.HasPrefix(line, "\"") {
			closing := strings.Index(line[1:]+comma, "\""+comma)
			if closing < 0 {
				return nil // not closed on its line: such text is refused
			}
			end = 2 + closing
			cell = strings.ReplaceAll(line[1:end-1], "\"\"", "\"")
		}
		cells = append(cells, cell)
		if end == len(line) {
			return cells
		}
		line = line[end+len(comma):]
	}
}
