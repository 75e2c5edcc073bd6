package view

import "github.com/jedib0t/go-pretty/v6/text"

// proseWidth is how wide lines for people run where the terminal sets no
// narrower limit.
const proseWidth = 100

// within gives the style with at most so many columns.
func (s Style) within(columns int) Style {
	if s.Width == 0 || s.Width > columns {
		s.Width = columns
	}
	return s
}

// fact is one thing said under a short name.
type fact struct{ name, says string }

// facts are written below each other, what they say in one column.
type facts []fact

func (f *facts) add(name, says string) { *f = append(*f, fact{name, says}) }

// facts writes them, wrapped.
func (p *printer) facts(all facts) {
	indent := 0
	for _, f := range all {
		indent = max(indent, text.StringWidth(f.name)+len(gap))
	}
	for _, f := range all {
		p.wrapped(text.Pad(f.name, indent, ' '), Clean(f.says))
	}
}
