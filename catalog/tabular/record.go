package tabular

import (
	"bufio"
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// records reads the records of a decoded text, one at a time. It alone knows
// where they stand.
type records struct {
	file      string
	win       *window
	csv       *csv.Reader
	delimiter rune
	quoting   quoting
	undoubler *undoubler // nil but where quote marks are not doubled

	fields     []string
	line       int   // where the record begins
	start, end int64 // of the record with its line end
	cursor     cursor
}

func newRecords(ctx context.Context, file string, text io.Reader, delimiter rune, q quoting) *records {
	var u *undoubler
	if q.undoubled {
		u = newUndoubler(text, comma(delimiter), q.spaced)
		text = u
	}
	win := &window{ctx: ctx, src: text, limit: MaxRecord + len("\r\n")}
	c := csv.NewReader(bufio.NewReaderSize(win, chunk))
	c.Comma = comma(delimiter)
	c.FieldsPerRecord = -1
	c.ReuseRecord = true
	c.LazyQuotes = q.lenient
	c.TrimLeadingSpace = q.spaced
	return &records{file: file, win: win, csv: c, delimiter: delimiter, quoting: q, undoubler: u}
}

// next reads one record, or returns io.EOF, an *Error, a *quoteError, or the
// error of the reader below.
func (r *records) next() error {
	r.win.mark, r.cursor = r.end, cursor{}
	fields, err := r.csv.Read()
	r.fields, r.end = fields, r.csv.InputOffset()
	if err == io.EOF {
		return io.EOF
	}
	r.start = r.win.mark
	r.start += int64(blankLines(r.win.text(r.start, r.end)))
	if err != nil {
		r.line = r.win.line(r.start)
		return r.explain(err)
	}
	r.line, _ = r.csv.FieldPos(0)
	if r.end-r.start > MaxRecord && len(r.text()) > MaxRecord {
		return r.tooLong()
	}
	if r.undoubler != nil {
		return r.undouble()
	}
	return r.checkQuotes()
}

// undouble puts the quote marks of the cells back, if the reading holds so far.
func (r *records) undouble() error {
	if r.undoubler.failed {
		return r.unclosed(0)
	}
	for i, f := range r.fields {
		if strings.IndexByte(f, stray) >= 0 {
			r.fields[i] = string(unstray([]byte(f)))
		}
	}
	return nil
}

// blankLines is the length of the line ends that text begins with.
func blankLines(text []byte) int {
	return len(text) - len(bytes.TrimLeft(text, "\r\n"))
}

// checkQuotes refuses what LazyQuotes lets pass.
func (r *records) checkQuotes() error {
	if !r.quoting.lenient {
		return nil
	}
	text := r.text()
	last := r.win.eof && r.end == r.win.given
	if !last && !bytes.ContainsAny(text, "\r\n") {
		return nil
	}
	if at, open := openQuote(r.win.text(r.start, r.end), r.delimiter, r.quoting); open {
		return r.unclosed(at)
	}
	return nil
}

// explain turns an error of encoding/csv or of the window into one of ours.
func (r *records) explain(err error) error {
	var parse *csv.ParseError
	switch {
	case errors.As(err, &parse):
		text := r.win.text(r.start, r.end)
		if at, open := openQuote(text, r.delimiter, r.quoting); open && r.win.eof && r.end == r.win.given {
			return r.unclosed(at)
		}
		return &quoteError{at: r.place(parse.Line, parse.Column), afterBlank: r.afterBlank(parse)}
	case errors.Is(err, errLong):
		r.end = r.win.given
		return r.tooLong()
	case r.win.ctx.Err() != nil:
		return err
	}
	return &Error{File: r.file, At: Position{Line: r.line}, Reason: "cannot be read further: " + err.Error(), Err: err}
}

// quoteError says that a file breaks the strict rule for quotes.
type quoteError struct {
	at         Position
	afterBlank bool // the quote mark follows the delimiter but for blanks
}

func (e *quoteError) Error() string { return fmt.Sprintf("quote mark on line %d", e.at.Line) }

// afterBlank reports whether only blanks part the offending quote mark from the
// beginning of its cell.
func (r *records) afterBlank(parse *csv.ParseError) bool {
	if !errors.Is(parse.Err, csv.ErrBareQuote) {
		return false
	}
	line := r.physical(parse.Line)
	before := line[:min(parse.Column-1, len(line))]
	if i := bytes.LastIndex(before, []byte(string(r.csv.Comma))); i >= 0 {
		before = before[i+utf8.RuneLen(r.csv.Comma):]
	}
	return len(before) > 0 && len(bytes.TrimSpace(before)) == 0
}

func (r *records) unclosed(offset int) error {
	at := r.offsetPlace(offset)
	return &Error{
		File:   r.file,
		At:     at,
		Reason: fmt.Sprintf("the quote opened on line %d is not closed", at.Line),
		Hint:   "close it, or double the quote mark if it belongs to the text",
		Err:    ErrUnclosedQuote,
	}
}

func (r *records) tooLong() error {
	e := &Error{
		File:   r.file,
		At:     Position{Line: r.line},
		Reason: fmt.Sprintf("the record that begins on line %d is longer than %d bytes", r.line, MaxRecord),
		Err:    ErrTooLong,
	}
	if at, open := openQuote(r.win.text(r.start, r.end), r.delimiter, r.quoting); open {
		e.Hint = fmt.Sprintf("the quote opened on line %d may lack its end", r.offsetPlace(at).Line)
	}
	return e
}

// blank reports whether the record is no row. Where nothing was found to part
// cells, a line of what mostly does is blank all the same.
func (r *records) blank() bool {
	if r.delimiter == NoDelimiter {
		return len(r.fields) == 1 && strings.Trim(r.fields[0], blanks+string(candidates)) == ""
	}
	return allBlank(r.fields)
}
