package recording

import (
	"context"
	"fmt"
	"strings"

	"lowsone/catalog/tabular"
)

// leastHeaders is how many frequencies make a row one of headers: what a row of
// levels shows by chance is fewer, and not in order.
const leastHeaders = 5

// headerScore says how much a row looks like the header of band levels: it names
// bands in order, or a frequency and a level.
func headerScore(cells []string) float64 {
	if n := len(bandsInOrder(cells)); n >= leastHeaders {
		return float64(n)
	}
	frequencies, levels := 0, 0
	for _, c := range cells {
		switch {
		case isFrequencyWord(c) && !isLevelWord(c):
			frequencies++
		case isLevelWord(c):
			levels++
		}
	}
	if frequencies == 0 || levels == 0 {
		return 0
	}
	return 2
}

// bandsInOrder gives the bands that cells name, by column, if they are in order.
func bandsInOrder(cells []string) map[int]float64 {
	bands := make(map[int]float64)
	last, turns, before := 0.0, 0, 0
	for i, c := range cells {
		hz, ok := headerHz(c)
		if !ok {
			continue
		}
		bands[i] = hz
		direction := 1
		if hz < last {
			direction = -1
		}
		if last > 0 && before != 0 && direction != before {
			turns++
		}
		if last > 0 {
			before = direction
		}
		last = hz
	}
	// Several kinds of levels side by side begin anew: up, back, up.
	if turns > len(bands)/leastHeaders {
		return nil
	}
	return bands
}

// gather reads the cells of the table by its layout.
func (t *tableReader) gather(ctx context.Context) error {
	t.lookAround()
	_, t.marks = t.file.Decide(nil)
	header := t.file.HeaderRow().Fields
	if bands := bandsInOrder(header); len(bands) >= leastHeaders {
		return t.gatherRows(ctx, bands)
	}
	return t.gatherColumns(ctx)
}

// lookAround reads what titles say, and a line of units below the header.
func (t *tableReader) lookAround() {
	var said []string
	for _, title := range t.file.Titles() {
		said = append(said, strings.Join(title.Fields, " "))
	}
	below := t.file.Below()
	units := below != nil
	if units {
		for _, c := range below.Fields {
			if number, _ := cutNumber(c); number != "" {
				units = false
			}
		}
		units = units && (isLevelWord(strings.Join(below.Fields, " ")) || isFrequencyWord(strings.Join(below.Fields, " ")))
	}
	if units {
		said = append(said, strings.Join(below.Fields, " "))
		t.file.SkipBelow()
	}
	t.around, t.power = titleWeight(strings.Join(said, "\n")), isPower(strings.Join(said, "\n"))
}

// gatherRows reads rows of levels below bands as headers.
func (t *tableReader) gatherRows(ctx context.Context, bands map[int]float64) error {
	header := t.file.HeaderRow().Fields
	for row, err := range t.file.Rows(ctx) {
		if err != nil {
			return err
		}
		if row.Ragged {
			return t.ragged(row)
		}
		said := t.rowLabel(row, bands)
		for i, cell := range row.Fields {
			hz, isBand := bands[i]
			if !isBand {
				continue
			}
			l, clash := labelOf(header[i]).and(said)
			if clash {
				return t.fail(ErrCell, row.At(i), "leave one of the two out", "%q: the row says %v, the header %v", t.header(i), said, labelOf(header[i]))
			}
			if err := t.level(row, i, cell, l, func(l label) *bandCell { return t.slot(l, hz, i) }); err != nil {
				return err
			}
		}
	}
	return nil
}

// rowLabel reads what the words of a row say about its levels.
func (t *tableReader) rowLabel(row *tabular.Row, bands map[int]float64) label {
	var words []string
	for i, cell := range row.Fields {
		if _, isBand := bands[i]; !isBand && !beginsWithDigit(cell) {
			words = append(words, cell)
		}
	}
	return labelOf(strings.Join(words, " "))
}

// level reads one cell of levels into its slot.
func (t *tableReader) level(row *tabular.Row, column int, cell string, l label, slot func(label) *bandCell) error {
	if isAbsent(cell) {
		t.absent++
		return nil
	}
	v, own, err := t.number(row, column, cell)
	if err != nil {
		return err
	}
	l, clash := l.and(own)
	if clash {
		return t.fail(ErrCell, row.At(column), "leave one of the two out", "%q: the cell %q says %v, its header or row %v", t.header(column), cell, own, l)
	}
	b := slot(l)
	if b.cells == 0 {
		b.at = row.At(column)
	}
	b.energy += ratio(v)
	b.cells++
	return nil
}

// mostCell is the largest number of dB that is taken for a level before the
// bands are looked at; its energy can still be added up.
const mostCell = 400

// number reads a level, perhaps with dB or dB(A) behind it.
func (t *tableReader) number(row *tabular.Row, column int, cell string) (float64, label, error) {
	number, unit := cutNumber(cell)
	marks := marksOf(t.marks[column])
	v, err := tabular.ParseNumber(number, marks[0])
	if err != nil && row == t.file.HeaderRow() && len(marks) > 1 {
		// A header that is data had no say about the decimal mark.
		v, err = tabular.ParseNumber(number, marks[1])
	}
	switch {
	case err != nil && number == "", unit != "" && !strings.HasPrefix(strings.ToLower(unit), "db"):
		return 0, label{}, t.fail(ErrCell, row.At(column), "write a level in dB such as 42.5, or leave the cell empty", "%q: %q is not a level", t.header(column), cell)
	case err != nil:
		e := t.fail(ErrCell, row.At(column), "write a level in dB such as 42.5, or leave the cell empty", "%q: %v", t.header(column), err)
		e.Cause = err
		return 0, label{}, e
	case v > mostCell || v < -mostCell:
		return 0, label{}, t.fail(ErrCell, row.At(column), "", "%q: %q is no level in dB", t.header(column), cell)
	}
	return v, labelOf(unit), nil
}

// isAbsent says whether a cell holds no level, as tables write it.
func isAbsent(cell string) bool {
	switch strings.ToLower(strings.TrimSpace(cell)) {
	case "", "-", "–", "—", "--", "---", "n/a", "na", "nan", "-inf", "-infinity", "-∞":
		return true
	}
	return false
}

// header names a column for messages.
func (t *tableReader) header(column int) string {
	if names := t.file.Header(); column < len(names) {
		return names[column]
	}
	return fmt.Sprintf("column %d", column+1)
}

func (t *tableReader) ragged(row *tabular.Row) error {
	return t.fail(ErrLayout, tabular.Position{Line: row.Line}, "mend the row, or leave it out", "%d cells where the header has %d", row.Cells, row.Want)
}
