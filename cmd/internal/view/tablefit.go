package view

import (
	"cmp"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// narrowest is the least width that wrapping leaves a column; words of up to
// longestWord are not broken as long as other columns can give way.
const (
	narrowest   = 10
	longestWord = 24
)

// fit chooses the columns to show and their widths, so that the table is no
// wider than limit if that can be done: spare columns are left out, then the
// widest column that may wrap gives way first.
func (t *Table) fit(cells [][]string, limit int) (keep, widths []int) {
	all := t.kept(cells)
	needed, total := t.widths(cells, all)
	if limit <= 0 || total <= limit {
		return all, needed
	}
	out, total := t.spare(all, needed, total, limit)
	for n, j := range all {
		if !out[n] {
			keep, widths = append(keep, j), append(widths, needed[n])
		}
	}
	excess := t.shrink(keep, widths, total-limit, t.words(cells, keep))
	t.shrink(keep, widths, excess, make([]int, len(keep)))
	return keep, widths
}

// spare says which spare columns are left out, and how wide the rest is: those
// most to be spared first until the rest fits, then back in what there is room
// for.
func (t *Table) spare(all, needed []int, total, limit int) (out []bool, rest int) {
	out = make([]bool, len(all))
	order := t.spareOrder(all)
	for _, n := range order {
		if total > limit {
			out[n] = true
			total -= needed[n] + len(gap)
		}
	}
	slices.Reverse(order)
	for _, n := range order {
		if width := needed[n] + len(gap); out[n] && total+width <= limit {
			out[n] = false
			total += width
		}
	}
	return out, total
}

// spareOrder lists the columns that may be left out, the first to go first.
func (t *Table) spareOrder(all []int) []int {
	var order []int
	for n := len(all) - 1; n >= 0; n-- {
		if t.Columns[all[n]].Spare > 0 {
			order = append(order, n)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(t.Columns[all[b]].Spare, t.Columns[all[a]].Spare) })
	return order
}

// shrink takes up to excess from the columns that may wrap, from the widest
// first and from none below its floor, and gives what is left of excess.
func (t *Table) shrink(keep, widths []int, excess int, floors []int) int {
	for ; excess > 0; excess-- {
		widest := -1
		for n, j := range keep {
			if t.Columns[j].Wrap && widths[n] > max(narrowest, floors[n]) && (widest < 0 || widths[n] > widths[widest]) {
				widest = n
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	return max(excess, 0)
}

// words gives the width of the longest word of each shown column, as far as
// words are kept whole.
func (t *Table) words(cells [][]string, keep []int) []int {
	widths := make([]int, len(keep))
	for n, j := range keep {
		for _, row := range cells {
			for _, word := range strings.Fields(row[j]) {
				widths[n] = max(widths[n], min(text.StringWidth(word), longestWord))
			}
		}
	}
	return widths
}

// leftOut names the columns that the terminal is too narrow for, and says where they
// are to be seen.
func (t *Table) leftOut(cells [][]string, keep []int, limit int) []string {
	var titles []string
	for _, j := range t.kept(cells) {
		if title := t.Columns[j].Title; title != "" && !slices.Contains(keep, j) && !slices.Contains(titles, title) {
			titles = append(titles, title)
		}
	}
	if len(titles) == 0 {
		return nil
	}
	whole := "--format " + cmp.Or(t.Whole, "csv")
	if limit < proseWidth { // no table of prose is wider, whatever the window
		whole = "a wider window, or " + whole + ","
	}
	shows := " shows it"
	if len(titles) > 1 {
		shows = " shows them"
	}
	said := "left out for the width: " + strings.Join(titles, ", ") + " (" + whole + shows + ")"
	lines := strings.Split(wrapSoft(Clean(said), limit), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return lines
}

// widths gives the width each column needs, and that of the whole table.
func (t *Table) widths(cells [][]string, keep []int) (widths []int, total int) {
	total = -len(gap)
	for _, j := range keep {
		width := max(text.StringWidth(t.Columns[j].Title), text.StringWidth(t.Columns[j].Unit))
		for _, row := range cells {
			width = max(width, text.StringWidth(row[j]))
		}
		widths = append(widths, width)
		total += width + len(gap)
	}
	return widths, total
}

// shows tells of each column whether it is shown in a style.
func (t *Table) shows(s Style) func(title string) bool {
	keep, _ := t.fit(t.cells(), s.Width)
	return func(title string) bool {
		return slices.ContainsFunc(keep, func(j int) bool { return t.Columns[j].Title == title })
	}
}
