package partscsv

import (
	"slices"
	"strconv"
	"strings"

	"lowsone/catalog"
)

// problemKey tells warnings of problems apart: what is wrong, and the columns it
// may come from.
type problemKey struct {
	plain  string
	column int
	beside [mostBeside]int // columns from 1; 0 for none
}

// mostBeside is the most values that one is held against, see catalog.Problem.
const mostBeside = 3

// warnOfProblem names every column that a problem may come from, and the row's
// numbers as an example.
func (r *Reader) warnOfProblem(c *column, p *catalog.Problem) {
	key := problemKey{plain: p.Plain, column: c.index}
	for i, id := range p.Beside[:min(len(p.Beside), mostBeside)] {
		key.beside[i] = r.row.from[id].column
	}
	warning, known := r.problems[key]
	if !known {
		warning = r.problemWarning(c, p, key.beside[:])
		if r.problems == nil || len(r.problems) >= mostAnswers {
			r.problems = map[problemKey]string{}
		}
		r.problems[key] = warning
	}
	text := p.Reason
	if p.Hint != "" {
		text += "; " + p.Hint
	}
	r.row.remarks = append(r.row.remarks, Remark{Column: c.index, Field: c.field, Text: text, Warning: warning, Example: p.Reason})
}

// problemWarning is the text of a problem without the values of a row.
func (r *Reader) problemWarning(c *column, p *catalog.Problem, beside []int) string {
	warning := p.Plain
	var headers []string
	for _, n := range beside {
		if n == 0 || r.plan.columnFrom(n) == c {
			continue
		}
		if h := strconv.Quote(r.plan.columnFrom(n).header.text); !slices.Contains(headers, h) {
			headers = append(headers, h)
		}
	}
	if len(headers) > 0 {
		warning += " (against " + joined(headers) + ")"
	}
	if p.Hint != "" {
		warning += "; " + p.Hint
	}
	return warning
}

// joined writes a list as people do.
func joined(list []string) string {
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return strings.Join(list, "")
}
