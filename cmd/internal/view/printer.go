package view

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// printer writes lines for people and keeps the first error.
type printer struct {
	w     io.Writer
	style Style
	err   error
}

// line writes one line; what it holds must be clean.
func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// factWidth is the width of the names that facts begin with.
const factWidth = 24

// fact writes a name, what is known of it, and a note on that.
func (p *printer) fact(name, value, note string) {
	head := "  " + text.Pad(Clean(name), factWidth, ' ')
	body := Clean(value)
	if note != "" {
		body += " (" + note + ")"
	}
	p.wrapped(head+" ", body)
}

// wrapped writes a head and a body, the body broken to the width of the
// terminal and hung under itself.
func (p *printer) wrapped(head, body string) {
	indent := text.StringWidthWithoutEscSequences(head)
	if room := p.style.Width - indent; p.style.Width > 0 && room >= narrowest {
		body = wrapSoft(body, room)
	}
	for i, line := range strings.Split(body, "\n") {
		if i > 0 {
			head = strings.Repeat(" ", indent)
		}
		p.line("%s", strings.TrimRight(head+line, " "))
	}
}

// Broken breaks a line to a width, its rest indented; a width of 0 is none.
func Broken(line string, width int) string {
	const indent = "  "
	if width < narrowest+len(indent) || text.StringWidth(line) <= width {
		return line
	}
	return strings.ReplaceAll(wrapSoft(line, width-len(indent)), "\n", "\n"+indent)
}

// hung writes a text broken to the width of the terminal, its first line behind
// first, the others behind rest.
func (p *printer) hung(first, rest, body string) {
	if room := p.style.Width - len(rest); p.style.Width > 0 && room >= narrowest {
		body = wrapSoft(body, room)
	}
	for i, line := range strings.Split(body, "\n") {
		lead := rest
		if i == 0 {
			lead = first
		}
		p.line("%s", strings.TrimRight(lead+line, " "))
	}
}
