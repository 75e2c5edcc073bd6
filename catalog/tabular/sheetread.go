package tabular

import "strconv"

// sheetCell is one cell as it stands in the XML, ECMA-376 part 1, 18.3.1.4.
type sheetCell struct {
	column  int // from 0
	kind    string
	style   int    // -1 for none that could be meant
	value   []byte // of v, or of is
	formula bool
}

// readCell reads the cell that has just opened, and puts it into the row. next is
// where it stands if it does not say so itself; the column behind it is returned.
func (s *sheetRows) readCell(next int) (behind int, err error) {
	c := &s.cell
	*c = sheetCell{column: next, kind: s.xml.attr("t"), style: styleNumber(s.xml.attr("s")), value: c.value[:0]}
	if ref := s.xml.attr("r"); ref != "" {
		column, row, ok := parseRef(ref)
		if !ok || row != s.row {
			return 0, s.fail(ErrDamaged, Position{Line: s.row}, "a cell of row %d says it is %q", s.row, ref)
		}
		c.column = column - 1
	}
	if c.column >= MaxColumns {
		return 0, s.fail(ErrTooWide, Position{Line: s.row}, "the row has more than the %d cells that are read", MaxColumns)
	}
	if err := s.readValue(c); err != nil {
		return 0, err
	}
	return c.column + 1, s.takeCell(c)
}

// styleNumber reads which style a cell has; the first where it says nothing.
func styleNumber(text string) int {
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		return -1
	}
	return n
}

// readValue reads what stands in a cell, up to its end.
func (s *sheetRows) readValue(c *sheetCell) error {
	m := s.xml
	for {
		if err := m.next(); err != nil {
			return err
		}
		switch {
		case m.is(closes, "row", "c"):
			return nil
		case m.is(opens, "c", "f"):
			c.formula = true
		case m.is(opens, "c", "is"):
			var err error
			if c.value, err = m.textItem(c.value); err != nil {
				return err
			}
		case m.event == text && m.within(0) == "v" && m.within(1) == "c":
			c.value = append(c.value, m.text...)
		}
		if len(c.value) > MaxRecord {
			return errLong
		}
	}
}

// takeCell puts a cell into the row.
func (s *sheetRows) takeCell(c *sheetCell) error {
	if end := s.sheet.end; end > 0 && c.column >= end {
		return nil
	}
	at := Position{Line: s.row, Column: c.column + 1}
	text, typed, ok := s.sheet.text(c)
	if !ok {
		return s.fail(ErrDamaged, at, "the cell refers to text %q of %d that the workbook has", c.value, len(s.sheet.shared))
	}
	if c.formula && len(c.value) == 0 {
		if s.seen.uncached == 0 {
			s.seen.first = at
		}
		s.seen.uncached++
	}
	s.size += len(text)
	s.total += len(text)
	switch {
	case s.size > MaxRecord:
		return errLong
	case s.total > MaxSheet:
		return s.fail(ErrTooLarge, at, "the cells of the sheet hold more than %d MiB of text", MaxSheet>>20)
	}
	if text != "" {
		s.set(c.column, text, typed)
		s.seen.count(c.column, text)
	}
	return nil
}

// count counts a cell that is not blank.
func (s *sheetSeen) count(column int, text string) {
	if isBlank(text) {
		return
	}
	for len(s.cells) <= column {
		s.cells = append(s.cells, 0)
	}
	s.cells[column]++
}
