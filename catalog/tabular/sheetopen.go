package tabular

import "context"

// openWorkbook looks through one sheet of a workbook.
func (f *File) openWorkbook(ctx context.Context, opts Options) error {
	a, err := openArchive(f.name, f.src, f.size)
	if err != nil {
		return err
	}
	w, err := readWorkbook(ctx, a)
	if err != nil {
		return err
	}
	if err := f.forTexts(opts); err != nil {
		return err
	}
	chosen, others, usual, err := w.choose(opts.Sheet)
	if err != nil {
		return err
	}
	if f.sheet, err = w.openSheet(ctx, chosen); err != nil {
		return err
	}
	f.dialect.Sheet, f.dialect.Named = chosen.name, !usual
	for _, e := range others {
		f.dialect.OtherSheets = append(f.dialect.OtherSheets, e.name)
	}
	if err := f.passSheet(ctx, opts); err != nil {
		return elsewhere(err, others)
	}
	if len(others) > 0 {
		f.note("other sheets, which are not read: %s; to read one: --sheet %q", sheetNames(others), w.next(chosen, others).name)
	}
	return nil
}

// forTexts refuses to force what only texts have.
func (f *File) forTexts(opts Options) error {
	switch {
	case opts.Delimiter != 0:
		return &Error{File: f.name, Reason: "a delimiter is given, and a workbook has none", Err: ErrDelimiter}
	case opts.Encoding != "":
		return &Error{File: f.name, Reason: "a character set is given, and a workbook has none to choose", Err: ErrEncoding}
	}
	return nil
}

// openSheet reads what the cells of a sheet refer to.
func (w *workbook) openSheet(ctx context.Context, e sheetEntry) (*sheet, error) {
	s := &sheet{workbook: w, name: e.name, part: e.part}
	var err error
	if s.shared, err = w.readShared(ctx); err != nil {
		return nil, err
	}
	s.forms, err = w.readForms(ctx)
	return s, err
}

// passSheet makes the first pass over the rows, and again without what stands far
// to the right of the table.
func (f *File) passSheet(ctx context.Context, opts Options) error {
	rows, err := f.sheet.rows(ctx)
	if err != nil {
		return err
	}
	f.scan = &scan{opts: opts, file: f.name, sheet: f.sheet.name, src: rows}
	err = f.scan.run()
	end, first, beyond := endOfTable(rows.seen.cells)
	if beyond == 0 || f.sheet.end > 0 || ctx.Err() != nil {
		return err
	}
	f.sheet.end = end
	f.note("cells far to the right of the table, which are left out: %d, the first in column %s", beyond, columnName(first+1))
	return f.passSheet(ctx, opts)
}

// farAway is how many columns without any cell part the table from what has
// nothing to do with it.
const farAway = 20

// endOfTable tells how many columns the table has, by the number of cells in each
// column, and of the cells beyond it the first column and how many there are.
func endOfTable(cells []int) (end, first, beyond int) {
	for column, n := range cells {
		switch {
		case n == 0:
		case end == 0 || column-end < farAway:
			end = column + 1
		default:
			if beyond == 0 {
				first = column
			}
			beyond += n
		}
	}
	return end, first, beyond
}

// elsewhere names the other sheets to who gave one without a table.
func elsewhere(err error, others []sheetEntry) error {
	own, ok := err.(*Error)
	if ok && (own.Err == ErrEmpty || own.Err == ErrNoRows) && len(others) > 0 {
		own.Hint = "read another sheet with --sheet NAME: " + sheetNames(others)
	}
	return err
}

// concludeSheet writes down what the pass over the rows found.
func (f *File) concludeSheet() {
	s, seen := f.scan, f.scan.src.(*sheetRows).seen
	for len(s.header.Fields) < s.used {
		s.header.Fields = append(s.header.Fields, "")
	}
	f.sheet.header, f.sheet.merges = s.header.Line, seen.merges
	f.sheet.settle(s)
	if n := len(newSpread(seen.merges, s.header.Line).merges); n > 0 {
		f.note("merged cells that go over several rows: %d; what stands in one holds for each of its rows", n)
	}
	if seen.hidden > 0 {
		f.note("hidden rows, which are read too: %d", seen.hidden)
	}
	if seen.uncached > 0 {
		f.note("formulas without a value, which read as empty: %d, the first in %s; save the file in a spreadsheet program, which fills them in",
			seen.uncached, placeText(f.sheet.name, seen.first))
	}
}

// settle settles which mark the cells that are numbers are written with, column
// by column: a point, unless cells of the column that are text hold numbers. Then
// it is the mark of those, so that one column has one mark.
func (s *sheet) settle(scan *scan) {
	_, columns := decide(scan.columns, 0, scan.opts.Decimal, nil)
	s.marks = make([]Mark, len(columns))
	for i, d := range columns {
		switch {
		case d.typed == 0:
		case d.Comma.Cells+d.Point.Cells+d.Ambiguous.Cells == 0:
			s.marks[i] = Point
		default:
			s.marks[i] = d.Mark
		}
	}
}

// settled puts the marks that are settled into decisions.
func (s *sheet) settled(columns []Decision) {
	for i := range columns {
		d := &columns[i]
		if s.marks[i] == 0 {
			continue
		}
		d.Mark = s.marks[i]
		if d.Comma.Cells+d.Point.Cells+d.Ambiguous.Cells == 0 {
			d.Why = WhyTyped
		}
	}
}
