package tabular

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"unicode"
)

// openText looks through a text that begins with head.
func (f *File) openText(ctx context.Context, head []byte, opts Options) error {
	if err := f.findCharset(ctx, head, opts); err != nil {
		return err
	}
	if opts.Sheet != "" {
		return &Error{File: f.name, Reason: fmt.Sprintf("sheet %q is asked for, and a text file has no sheets", opts.Sheet), Err: ErrSheet}
	}
	sep, err := f.findDelimiter(ctx, opts)
	if err != nil {
		return err
	}
	return f.readThrough(ctx, opts, sep)
}

// findCharset settles the character set, and refuses what is no text.
func (f *File) findCharset(ctx context.Context, head []byte, opts Options) error {
	if len(bytes.TrimSpace(head)) == 0 && int64(len(head)) == f.size {
		return &Error{File: f.name, Reason: "the file is empty", Err: ErrEmpty}
	}
	if isCompound(head) {
		return f.compound(ctx)
	}
	if what, hint := binaryKind(head); what != "" {
		return notTable(f.name, what, hint)
	}
	known, err := f.knownCharset(head, opts)
	if err != nil {
		return err
	}
	stats, err := inspect(ctx, f.text())
	if err != nil {
		return f.unreadable(err)
	}
	if !known && stats.badUTF8 > 0 {
		f.set = windows1252
		f.dialect.Encoding = found(f.set.name, fmt.Sprintf("line %d is no UTF-8", stats.badLine))
	}
	f.noteCharset(stats)
	if at, reason := stats.notText(); reason != "" {
		return &Error{File: f.name, At: at, Reason: reason, Hint: saveAsTable, Err: ErrNotText}
	}
	return nil
}

// knownCharset settles the character set by what is given or by the head of the
// file. Without either it is UTF-8 until proven otherwise.
func (f *File) knownCharset(head []byte, opts Options) (known bool, err error) {
	if opts.Encoding != "" {
		f.set, err = charsetByName(opts.Encoding, head)
		if err != nil {
			return false, &Error{
				File:   f.name,
				Reason: err.Error(),
				Hint:   "for instance utf-8, utf-16le, windows-1252, iso-8859-2, ibm850 or shift_jis",
				Err:    ErrEncoding,
			}
		}
		f.dialect.Encoding = forced(f.set.name)
		return true, nil
	}
	how := "its byte order mark"
	f.set, known = charsetByBOM(head)
	if !known {
		how = "every second byte is zero"
		f.set, known = charsetByZeros(head)
	}
	if !known {
		how = "all of it is valid UTF-8"
		f.set = charset{name: "utf-8"}
	}
	f.dialect.Encoding = found(f.set.name, how)
	return known, nil
}

// noteCharset notes what makes the character set doubtful.
func (f *File) noteCharset(s *textStats) {
	legacy := f.set.name == "windows-1252" && !f.dialect.Encoding.Forced
	switch {
	case legacy && s.multibyte > s.badUTF8:
		f.note("most letters beyond ASCII are UTF-8, but line %d is not; if letters come out wrong, read the file as utf-8", s.badLine)
	case legacy && s.undefined > 0:
		f.note("%d bytes have no meaning in windows-1252; if letters come out wrong, try an older character set such as ibm850", s.undefined)
	case s.badUTF8 > 0 && !legacy:
		f.note("%d bytes are no UTF-8, the first on line %d; they show as U+FFFD", s.badUTF8, s.badLine)
	case s.replaced > 0:
		f.note("%d characters are lost (U+FFFD), the first on line %d", s.replaced, s.replLine)
	}
}

func (f *File) note(format string, args ...any) {
	f.dialect.Notes = append(f.dialect.Notes, fmt.Sprintf(format, args...))
}

// findDelimiter settles the delimiter, and returns the line of a sep= line.
func (f *File) findDelimiter(ctx context.Context, opts Options) (sep int, err error) {
	win := &window{ctx: ctx, src: f.text(), limit: sampleSize}
	sample := make([]byte, sampleSize)
	n, err := io.ReadFull(win, sample)
	whole := err == io.EOF || err == io.ErrUnexpectedEOF
	if err != nil && !whole {
		return 0, f.unreadable(err)
	}
	sample = sample[:n]
	if _, ok := sepLine(sample); ok {
		sep = 1
	}
	if opts.Delimiter != 0 {
		f.dialect.Delimiter = forced(opts.Delimiter)
	} else {
		f.dialect.Delimiter = findDelimiter(sample, whole, opts.HeaderLine)
	}
	return sep, nil
}

// readThrough makes the first pass over the rows, and again with a relaxed rule
// for quotes where the file breaks the strict one.
func (f *File) readThrough(ctx context.Context, opts Options, sep int) error {
	for {
		err := f.pass(ctx, opts, sep)
		var quote *quoteError
		if !errors.As(err, &quote) {
			return f.undouble(ctx, opts, sep, err)
		}
		f.relax(quote)
	}
}

func (f *File) pass(ctx context.Context, opts Options, sep int) error {
	f.scan = &scan{opts: opts, file: f.name, src: f.records(ctx), skip: sep}
	return f.scan.run()
}

// undouble tries the reading by which quote marks within cells are not doubled,
// where the one so far ended with err or cannot match all rows to the columns. Of
// the two, the one that loses fewer rows stands.
func (f *File) undouble(ctx context.Context, opts Options, sep int, err error) error {
	unclosed := errors.Is(err, ErrUnclosedQuote)
	if !unclosed && (err != nil || !f.quoting.lenient || f.scan.ragged == 0) {
		return err
	}
	before, quotes := f.scan, f.quoting
	f.quoting.lenient, f.quoting.undoubled = true, true
	again := f.pass(ctx, opts, sep)
	if again == nil && (unclosed || f.scan.ragged < before.ragged) {
		f.note("quote marks inside quoted cells are not doubled: such a cell is taken to end where a delimiter or the end of its line follows")
		return nil
	}
	f.scan, f.quoting = before, quotes
	if ctx.Err() != nil {
		return again
	}
	return err
}

// relax loosens the rule for quotes by one step. The last step has no
// quoteError, so there are two at the most.
func (f *File) relax(e *quoteError) {
	if e.afterBlank && !f.quoting.spaced && !unicode.IsSpace(f.dialect.Delimiter.Value) {
		f.quoting.spaced = true
		f.note("line %d, character %d: blanks before a quote mark are dropped, here and in all cells", e.at.Line, e.at.Column)
		return
	}
	f.quoting.lenient = true
	f.note("line %d, character %d: a quote mark stands inside a cell; quote marks inside cells are taken as they stand", e.at.Line, e.at.Column)
}

// conclude writes down what the pass over the rows found.
func (f *File) conclude(opts Options) {
	s, d := f.scan, &f.dialect
	if f.sheet != nil {
		f.concludeSheet()
	} else {
		d.LineEnd = found(s.ends.kind(), "the ends of its rows")
		d.Lenient = f.quoting.lenient
	}
	f.header = nameColumns(s.header.Fields[:min(s.width.wide, len(s.header.Fields))])
	f.dataFrom = s.header.Line
	d.HeaderLine = Trait[int]{Value: s.header.Line, Forced: opts.HeaderLine > 0, How: s.how}
	d.TitleLines = s.titles
	d.Decimal, _ = f.Decide(nil)
}

// unreadable wraps what went wrong below, but not a cancelled context.
func (f *File) unreadable(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return &Error{File: f.name, Reason: "cannot be read: " + err.Error(), Err: err}
}

// changed is the error of a second pass that cannot be, if the file is still
// what it was in the first.
func (f *File) changed(err error) error {
	var quote *quoteError
	if err != nil && !errors.As(err, &quote) {
		return err
	}
	return &Error{File: f.name, Reason: "the file changed while it was read", Hint: "read it again", Err: ErrChanged}
}
