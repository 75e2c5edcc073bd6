package tabular

import (
	"fmt"
	"io"
)

// scan is what the first pass over the rows of a file finds out.
type scan struct {
	opts  Options
	file  string
	sheet string // of a workbook
	src   source
	skip  int // physical line of a sep= line, else 0

	head    []*Row // rows until the header is settled, then the titles
	titles  int
	header  *Row
	how     string
	width   width
	used    int // columns that hold something below the header
	first   *Row
	rows    int
	ragged  int
	ends    lineEnds
	columns []Decision
	row     Row
}

// run reads all rows.
func (s *scan) run() error {
	for {
		err := s.src.next()
		if err == io.EOF {
			return s.finish()
		}
		if err != nil {
			return err
		}
		s.ends.count(s.src.whole())
		if s.src.begins() == s.skip || s.src.blank() {
			continue
		}
		if s.header != nil {
			s.row.take(s.src, s.width)
			s.observe(&s.row)
		} else if err := s.offer(); err != nil {
			return err
		}
	}
}

// offer keeps a row from which the header may be chosen, and chooses.
func (s *scan) offer() error {
	row := &Row{Line: s.src.begins(), Fields: s.src.cells(), typed: s.src.typed(), from: s.src}
	want := s.opts.HeaderLine
	switch {
	case want == 0:
		s.head = append(s.head, row.Clone())
		if len(s.head) == MaxTitles {
			return s.settle()
		}
	case row.Line < want:
		s.titles++
		if s.titles <= MaxTitles {
			s.head = append(s.head, row.Clone())
		}
	case row.Line == want:
		return s.setHeader(row.Clone(), "as given")
	default:
		return s.noHeaderLine(row.Line)
	}
	return nil
}

func (s *scan) noHeaderLine(next int) error {
	e := s.fail(ErrHeaderLine, 0, "no row begins on line %d, where the header should be", s.opts.HeaderLine)
	if next > 0 {
		e.Hint = fmt.Sprintf("the next row begins on line %d", next)
	}
	return e
}

// settle chooses the header among the rows kept so far, and takes the rows
// below it for what they are.
func (s *scan) settle() error {
	i, how := pickHeader(s.head, s.opts.HeaderScore)
	below := s.head[i+1:]
	header := s.head[i]
	s.head, s.titles = s.head[:i], i
	if err := s.setHeader(header, how); err != nil {
		return err
	}
	for _, r := range below {
		r.fit(s.width)
		s.observe(r)
	}
	return nil
}

func (s *scan) setHeader(row *Row, how string) error {
	s.header, s.how = row, how
	s.width = width{narrow: filled(row.Fields), wide: len(row.Fields), open: s.sheet != ""}
	if s.width.narrow > MaxColumns {
		return s.fail(ErrTooWide, row.Line, "the header has %d columns, more than the %d that are read", s.width.narrow, MaxColumns)
	}
	s.width.wide = min(s.width.wide, MaxColumns)
	s.used = s.width.narrow
	s.columns = make([]Decision, s.width.wide)
	return nil
}

// observe takes account of one row below the header.
func (s *scan) observe(row *Row) {
	s.rows++
	if s.first == nil {
		s.first = row.Clone()
	}
	if row.Ragged {
		s.ragged++
		return
	}
	s.used = max(s.used, filled(row.Fields))
	if s.width.open && s.used > len(s.columns) {
		s.columns = append(s.columns, make([]Decision, s.used-len(s.columns))...)
	}
	for i := range row.Fields {
		s.columns[i].observe(row, i)
	}
}

// finish settles what the end of the file leaves open.
func (s *scan) finish() error {
	if s.header == nil && s.opts.HeaderLine == 0 && len(s.head) > 0 {
		if err := s.settle(); err != nil {
			return err
		}
	}
	switch {
	case s.header == nil && s.opts.HeaderLine > 0 && s.titles > 0:
		return s.noHeaderLine(0)
	case s.header == nil:
		return s.fail(ErrEmpty, 0, "the %s holds no rows", s.what())
	case s.rows == 0:
		return s.fail(ErrNoRows, s.header.Line, "there is a header but no row below it")
	}
	s.width.wide, s.width.open = s.used, false
	if s.sheet != "" {
		s.width.narrow = 0
	}
	s.columns = s.columns[:s.used]
	s.first.fit(s.width)
	return nil
}

// what names what has been read.
func (s *scan) what() string {
	if s.sheet != "" {
		return "sheet"
	}
	return "file"
}

// fail makes an error of a line, or of the whole where line is 0.
func (s *scan) fail(kind error, line int, format string, args ...any) *Error {
	return &Error{File: s.file, Sheet: s.sheet, At: Position{Line: line}, Reason: fmt.Sprintf(format, args...), Err: kind}
}
