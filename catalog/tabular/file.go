package tabular

import (
	"context"
	"io"
	"iter"
)

// File is a CSV file that has been looked through.
type File struct {
	name     string
	src      io.ReaderAt
	size     int64
	set      charset
	quoting  quoting
	dialect  Dialect
	scan     *scan
	header   []string
	dataFrom int // physical line of the last row that is not data
}

// Open looks through a file of size bytes: how it is written, where its header
// is, how many rows it has. src is read again by Rows and must not change. name
// is for messages.
//
// What it refuses comes as an [*Error]; a cancelled context as its own error.
func Open(ctx context.Context, name string, src io.ReaderAt, size int64, opts Options) (*File, error) {
	if opts.Delimiter != 0 && !usableDelimiter(opts.Delimiter) {
		return nil, &Error{
			File:   name,
			Reason: "a quote mark or a line end cannot be the delimiter",
			Err:    ErrDelimiter,
		}
	}
	f := &File{name: name, src: src, size: size}
	if err := f.findCharset(ctx, opts); err != nil {
		return nil, err
	}
	sep, err := f.findDelimiter(ctx, opts)
	if err != nil {
		return nil, err
	}
	if err := f.readThrough(ctx, opts, sep); err != nil {
		return nil, err
	}
	f.conclude(opts)
	return f, nil
}

// bytes is the file from its first byte.
func (f *File) bytes() io.Reader { return io.NewSectionReader(f.src, 0, f.size) }

// text is the file decoded to UTF-8, without byte order mark.
func (f *File) text() io.Reader {
	r := io.NewSectionReader(f.src, f.set.skip, f.size-f.set.skip)
	if f.set.enc == nil {
		return r
	}
	return f.set.enc.NewDecoder().Reader(r)
}

func (f *File) records(ctx context.Context) *records {
	return newRecords(ctx, f.name, f.text(), f.dialect.Delimiter.Value, f.quoting)
}

// Dialect is how the file is written.
func (f *File) Dialect() Dialect { return f.dialect }

// Header names the columns: trimmed, "column N" where empty, numbered where
// repeated.
func (f *File) Header() []string { return f.header }

// HeaderRow is the header as it stands in the file.
func (f *File) HeaderRow() *Row { return f.scan.header }

// Titles are the rows above the header, at most MaxTitles of them.
func (f *File) Titles() []*Row { return f.scan.head }

// RowCount is how many rows Rows will hand out, and how many of them are ragged.
func (f *File) RowCount() (rows, ragged int) { return f.scan.rows, f.scan.ragged }

// Below is the first row below the header: data, or a second line of the header
// such as one of units. Rows begins with it unless SkipBelow has been called.
func (f *File) Below() *Row { return f.scan.first }

// SkipBelow takes the first row below the header for part of the header. It must
// be called before Rows; RowCount may then be 0.
func (f *File) SkipBelow() {
	if f.dataFrom == f.scan.header.Line {
		f.dataFrom = f.scan.first.Line
		f.scan.rows--
		if f.scan.first.Ragged {
			f.scan.ragged--
		}
	}
}

// Decide settles the decimal mark of the file and of each column, as
// [Dialect] and the header have them. Columns that do not vote keep their own
// mark where they prove one but have no say about the others: part numbers and
// descriptions may hold points that are no decimal marks. A nil votes lets all
// columns vote.
func (f *File) Decide(votes func(column int) bool) (Trait[Mark], []Decision) {
	return decide(f.scan.columns, f.dialect.Delimiter.Value, f.scan.opts.Decimal, votes)
}

// Rows reads the rows below the header. It may be called again, and at the same
// time. It ends with the first error.
func (f *File) Rows(ctx context.Context) iter.Seq2[*Row, error] {
	return func(yield func(*Row, error) bool) {
		row := &Row{}
		records := f.records(ctx)
		count := 0
		for {
			err := records.next()
			if err == io.EOF {
				break
			}
			if err != nil {
				yield(nil, f.changed(err))
				return
			}
			if records.line <= f.dataFrom || records.blank() {
				continue
			}
			count++
			row.take(records, f.scan.width)
			if !yield(row, nil) {
				return
			}
		}
		if count != f.scan.rows || records.end != f.scan.records.end {
			yield(nil, f.changed(nil))
		}
	}
}
