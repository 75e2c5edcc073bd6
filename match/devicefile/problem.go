package devicefile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// Place is where something stands in a file: line and column from 1, the column
// in characters. The zero Place is the file as a whole.
type Place struct{ Line, Column int }

// Problem is one thing that is wrong with a device file.
type Problem struct {
	At     Place
	Reason string
	Hint   string // names the mend; empty where none can be named
	Line   string // the source line, fit for a terminal
	Caret  string // blanks and a caret to stand under Line
	Err    error  // of a lookup, or of a table that was read; else nil
}

// Error is everything that was found wrong with a device file, in the order of
// the file.
type Error struct {
	Name     string // of the file
	Problems []Problem
	More     int // so many problems are not listed
}

// mostProblems is how many problems are listed: a file with more of them has
// one at its root.
const mostProblems = 40

// Error prints every problem with its source line and a caret.
func (e *Error) Error() string {
	var b strings.Builder
	for i, p := range e.Problems {
		if i > 0 {
			b.WriteByte('\n')
		}
		p.print(&b, e.Name)
	}
	if e.More > 0 {
		fmt.Fprintf(&b, "\n%s: %d more problems", e.Name, e.More)
	}
	return b.String()
}

// Unwrap gives the errors of lookups and tables.
func (e *Error) Unwrap() []error {
	var all []error
	for _, p := range e.Problems {
		if p.Err != nil {
			all = append(all, p.Err)
		}
	}
	return all
}

func (p Problem) print(b *strings.Builder, name string) {
	if p.At == (Place{}) {
		fmt.Fprintf(b, "%s: %s", name, p.Reason)
	} else {
		number := fmt.Sprint(p.At.Line)
		fmt.Fprintf(b, "%s:%d:%d: %s\n  %s | %s\n  %*s | %s", name, p.At.Line, p.At.Column, p.Reason,
			number, p.Line, len(number), "", p.Caret)
	}
	if p.Hint != "" {
		b.WriteString("\n  " + p.Hint)
	}
}

// text is a file by its lines.
type text struct {
	name  string
	lines []string
}

// problems gathers what is wrong with a text.
type problems struct {
	text *text
	list []Problem
	more int
}

func (p *problems) add(problem Problem) {
	if p.full() {
		p.more++
		return
	}
	problem.Line, problem.Caret = p.text.marked(problem.At)
	p.list = append(p.list, problem)
}

func (p *problems) addf(at Place, hint, format string, args ...any) {
	p.add(Problem{At: at, Reason: fmt.Sprintf(format, args...), Hint: hint})
}

// full says whether no more problems are listed.
func (p *problems) full() bool { return len(p.list) == mostProblems }

// count is how many problems there are.
func (p *problems) count() int { return len(p.list) + p.more }

// err gives the problems as an *Error; nil where there are none.
func (p *problems) err() error {
	if len(p.list) == 0 {
		return nil
	}
	slices.SortStableFunc(p.list, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.At.Line, b.At.Line), cmp.Compare(a.At.Column, b.At.Column))
	})
	return &Error{Name: p.text.name, Problems: p.list, More: p.more}
}

// Characters of a source line that are shown: so many before the caret, so many
// from it on.
const shownBefore, shownAfter = 60, 60

// marked gives the source line of a place, cut about it where it is long, and
// the caret under it.
func (t *text) marked(at Place) (line, caret string) {
	if at.Line < 1 || at.Line > len(t.lines) {
		return "", ""
	}
	runes := []rune(t.lines[at.Line-1])
	column := min(max(at.Column-1, 0), len(runes))
	before, after := runes[:column], runes[column:]
	if len(before) > shownBefore {
		before = append([]rune("…"), before[len(before)-shownBefore:]...)
	}
	if len(after) > shownAfter {
		after = append(slices.Clone(after[:shownAfter]), '…')
	}
	head := safe(before)
	return head + safe(after), strings.Repeat(" ", columns(head)) + "^"
}

// safe replaces what a terminal would obey, or show backwards, by a mark.
func safe(runes []rune) string {
	return strings.Map(func(r rune) rune {
		if r == '\t' {
			return ' '
		}
		if unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) || r == unicode.ReplacementChar {
			return '\uFFFD'
		}
		return r
	}, string(runes))
}

// columns is the width of s on a terminal.
func columns(s string) (n int) {
	const firstMark = 0x300 // below it every character is one column wide
	for _, r := range s {
		switch {
		case r < firstMark:
			n++
		case unicode.In(r, unicode.Mn, unicode.Me):
		case wide(r):
			n += 2
		default:
			n++
		}
	}
	return n
}

func wide(r rune) bool {
	k := width.LookupRune(r).Kind()
	return k == width.EastAsianWide || k == width.EastAsianFullwidth
}
