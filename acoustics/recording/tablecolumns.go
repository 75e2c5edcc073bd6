package recording

import (
	"context"
	"regexp"
	"slices"
	"strings"

	"lowsone/catalog/tabular"
)

// columnTable is a table with a column of frequencies.
type columnTable struct {
	*tableReader
	frequency int
	bare      float64 // Hz of a frequency without unit
	levels    []int
	labels    []label // of the levels, by their headers
}

// gatherColumns reads a table with a column of frequencies.
func (t *tableReader) gatherColumns(ctx context.Context) error {
	c := &columnTable{tableReader: t, bare: 1}
	if err := c.findFrequency(ctx); err != nil {
		return err
	}
	if err := c.findLevels(ctx); err != nil {
		return err
	}
	if err := c.take(t.file.HeaderRow(), true); err != nil {
		return err
	}
	for row, err := range t.file.Rows(ctx) {
		if err != nil {
			return err
		}
		if row.Ragged {
			return t.ragged(row)
		}
		if err := c.take(row, false); err != nil {
			return err
		}
	}
	return nil
}

// inKilohertz finds a header whose numbers are kHz.
var inKilohertz = regexp.MustCompile(`(?i)\bkhz\b`)

// findFrequency finds the column of frequencies: the one whose header says so,
// else the first that holds nothing but bands.
func (c *columnTable) findFrequency(ctx context.Context) error {
	header := c.file.HeaderRow().Fields
	found := slices.IndexFunc(header, func(h string) bool { return isFrequencyWord(h) && !isLevelWord(h) })
	if found < 0 {
		counts, err := c.count(ctx, func(column int, cell string) bool {
			hz, ok := parseHz(cell, 1, marksOf(c.marks[column])...)
			return ok && isBand(hz)
		})
		if err != nil {
			return err
		}
		found = slices.IndexFunc(counts, func(n tally) bool { return n.good == n.all && n.all >= leastHeaders })
	}
	if found < 0 {
		return c.fail(ErrLayout, tabular.Position{Line: c.file.HeaderRow().Line},
			"give a column of frequencies such as 125 Hz and one of levels, or frequencies as headers with the levels below",
			"no column and no row holds the frequencies of bands")
	}
	c.frequency = found
	if inKilohertz.MatchString(header[found]) && !beginsWithDigit(header[found]) {
		c.bare = 1000
	}
	return nil
}

// tally counts the cells of a column that are not empty, and those that pass.
type tally struct{ good, all int }

func (c *columnTable) count(ctx context.Context, pass func(column int, cell string) bool) ([]tally, error) {
	counts := make([]tally, len(c.file.Header()))
	for row, err := range c.file.Rows(ctx) {
		if err != nil {
			return nil, err
		}
		for i := range min(len(row.Fields), len(counts)) {
			if isAbsent(row.Fields[i]) {
				continue
			}
			counts[i].all++
			if pass(i, row.Fields[i]) {
				counts[i].good++
			}
		}
	}
	return counts, nil
}

// findLevels finds the columns of levels: the one that was asked for, else those
// of numbers. Of several without a kind, only one may be meant.
func (c *columnTable) findLevels(ctx context.Context) error {
	names := c.file.Header()
	if c.opts.Column != "" {
		i := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(n, strings.TrimSpace(c.opts.Column)) })
		if i < 0 {
			return c.fail(ErrLayout, tabular.Position{}, "the columns are "+strings.Join(names, ", "), "no column %q", c.opts.Column)
		}
		c.levels, c.labels = []int{i}, []label{labelOf(c.headerWords(i))}
		return nil
	}
	counts, err := c.count(ctx, func(_ int, cell string) bool {
		number, unit := cutNumber(cell)
		return number != "" && (unit == "" || strings.HasPrefix(strings.ToLower(unit), "db"))
	})
	if err != nil {
		return err
	}
	for i, n := range counts {
		if i != c.frequency && (2*n.good > n.all || len(names) == 2) {
			c.levels, c.labels = append(c.levels, i), append(c.labels, labelOf(c.headerWords(i)))
		}
	}
	return c.oneOfEach(names)
}

// headerWords is a header without its frequency, and nothing where the header is
// data.
func (c *columnTable) headerWords(i int) string {
	if h := c.file.HeaderRow().Fields; i < len(h) && !beginsWithDigit(h[i]) {
		return h[i]
	}
	return ""
}

// oneOfEach refuses two columns of one kind.
func (c *columnTable) oneOfEach(names []string) error {
	line := c.file.HeaderRow().Line
	if len(c.levels) == 0 {
		return c.fail(ErrLayout, tabular.Position{Line: line}, "give a column of levels in dB", "no column of levels beside the frequencies in %q", names[c.frequency])
	}
	best := slices.MinFunc(c.labels, func(a, b label) int { return a.rank() - b.rank() })
	var same []string
	for i, l := range c.labels {
		if l == best {
			same = append(same, names[c.levels[i]])
		}
	}
	if len(same) > 1 {
		return c.fail(ErrLayout, tabular.Position{Line: line}, "say which column holds the levels: "+strings.Join(same, ", "),
			"%d columns may hold the levels", len(same))
	}
	return nil
}

// take reads one row: a frequency and its levels. A header that is data is the
// first one.
func (c *columnTable) take(row *tabular.Row, isHeader bool) error {
	if len(row.Fields) <= c.frequency {
		return nil
	}
	cell := row.Fields[c.frequency]
	hz, ok := parseHz(cell, c.bare, marksOf(c.marks[c.frequency])...)
	if isHeader && (!ok || !c.headerIsData(row)) {
		return nil
	}
	if !ok {
		return c.noFrequency(row, cell)
	}
	for i, column := range c.levels {
		if column >= len(row.Fields) {
			continue
		}
		err := c.level(row, column, row.Fields[column], c.labels[i], func(l label) *bandCell { return c.slot(l, hz, own) })
		if err != nil {
			return err
		}
	}
	return nil
}

// headerIsData says whether the first row is no header but a band and its
// levels.
func (c *columnTable) headerIsData(row *tabular.Row) bool {
	return !slices.ContainsFunc(c.levels, func(column int) bool {
		return column < len(row.Fields) && !beginsWithDigit(row.Fields[column])
	})
}

// noFrequency passes over a row of a sum, such as "Total" or "A", and refuses a
// frequency that cannot be read.
func (c *columnTable) noFrequency(row *tabular.Row, cell string) error {
	if strings.ContainsAny(cell, "0123456789") {
		return c.fail(ErrCell, row.At(c.frequency), "write a frequency such as 125, 125 Hz or 1.25 kHz", "%q: %q is not a frequency", c.header(c.frequency), cell)
	}
	if !isAbsent(cell) {
		c.note("line %d, %q, is no band: left out", row.Line, strings.TrimSpace(cell))
	}
	return nil
}
