package tabular

import (
	"fmt"
	"io"
)

// scan is what the first pass over the rows of a file finds out.
type scan struct {
	opts    Options
	records *records
	skip    int // physical line of a sep= line, else 0

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
		err := s.records.next()
		if err == io.EOF {
			return s.finish()
		}
		if err != nil {
			return err
		}
		r := s.records
		s.ends.count(r.win.text(r.start, r.end))
		if r.line == s.skip || r.blank() {
			continue
		}
		if s.header != nil {
			s.row.take(r, s.width)
			s.observe(&s.row)
		} else if err := s.offer(); err != nil {
			return err
		}
	}
}

// offer keeps a row from which the header may be chosen, and chooses.
func (s *scan) offer() error {
	row := &Row{Line: s.records.line, Fields: s.records.fields, from: s.records}
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
	e := &Error{
		File:   s.records.file,
		Reason: fmt.Sprintf("no row begins on line %d, where the header should be", s.opts.HeaderLine),
		Err:    ErrHeaderLine,
	}
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
	s.width = width{narrow: filled(row.Fields), wide: len(row.Fields)}
	if s.width.narrow > MaxColumns {
		return &Error{
			File:   s.records.file,
			At:     Position{Line: row.Line},
			Reason: fmt.Sprintf("the header has %d columns, more than the %d that are read", s.width.narrow, MaxColumns),
			Err:    ErrTooWide,
		}
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
		return &Error{File: s.records.file, Reason: "the file holds no rows", Err: ErrEmpty}
	case s.rows == 0:
		return &Error{
			File:   s.records.file,
			At:     Position{Line: s.header.Line},
			Reason: "there is a header but no row below it",
			Err:    ErrNoRows,
		}
	}
	s.width.wide = s.used
	s.columns = s.columns[:s.used]
	s.first.fit(s.width)
	return nil
}
