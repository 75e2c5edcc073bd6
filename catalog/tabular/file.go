package tabular

import (
	"context"
	"io"
	"iter"
)

// File is a CSV file, or a sheet of a workbook, that has been looked through.
type File struct {
	name     string
	src      io.ReaderAt
	size     int64
	set      charset
	quoting  quoting
	sheet    *sheet // nil for a text
	dialect  Dialect
	scan     *scan
	header   []string
	dataFrom int // physical line of the last row that is not data
}

// Open looks through a file of size bytes: what it is and how it is written,
// where its header is, how many rows it has. src is read again by Rows and must
// not change. name is for messages.
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
	head, err := f.head()
	if err != nil {
		return nil, err
	}
	if isArchive(head) {
		err = f.openWorkbook(ctx, opts)
	} else {
		err = f.openText(ctx, head, opts)
	}
	if err != nil {
		return nil, err
	}
	f.conclude(opts)
	return f, nil
}

// head is how the file begins.
func (f *File) head() ([]byte, error) {
	head := make([]byte, chunk)
	n, err := io.ReadFull(f.bytes(), head)
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return nil, f.unreadable(err)
	}
	return head[:n], nil
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

// source is the file from its first record.
func (f *File) source(ctx context.Context) (source, error) {
	if f.sheet != nil {
		return f.sheet.rows(ctx)
	}
	return f.records(ctx), nil
}

// Name is the name of the file, with that of the sheet that is read.
func (f *File) Name() string {
	if f.sheet == nil {
		return f.name
	}
	return f.name + ":" + f.sheet.name
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
//
// Cells that are numbers to a workbook are written with the mark of their column,
// which is settled once and for all.
func (f *File) Decide(votes func(column int) bool) (Trait[Mark], []Decision) {
	file, columns := decide(f.scan.columns, f.dialect.Delimiter.Value, f.scan.opts.Decimal, votes)
	if f.sheet != nil {
		f.sheet.settled(columns)
	}
	return file, columns
}

// Rows reads the rows below the header. It may be called again, and at the same
// time. It ends with the first error.
func (f *File) Rows(ctx context.Context) iter.Seq2[*Row, error] {
	return func(yield func(*Row, error) bool) {
		row := &Row{}
		src, err := f.source(ctx)
		if err != nil {
			yield(nil, err)
			return
		}
		count := 0
		for {
			err := src.next()
			if err == io.EOF {
				break
			}
			if err != nil {
				yield(nil, f.changed(err))
				return
			}
			if src.begins() <= f.dataFrom || src.blank() {
				continue
			}
			count++
			row.take(src, f.scan.width)
			if !yield(row, nil) {
				return
			}
		}
		if count != f.scan.rows || src.tail() != f.scan.src.tail() {
			yield(nil, f.changed(nil))
		}
	}
}
