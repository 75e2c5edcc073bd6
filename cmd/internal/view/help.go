package view

import (
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// Help is the help of a command.
type Help struct {
	Long     string // lines as they shall stand
	Usage    string
	Examples string // lines as they shall stand
	Lists    []HelpList
}

// HelpList is a list of commands or flags.
type HelpList struct {
	Title   string
	Entries []HelpEntry
}

// HelpEntry is one line of a list.
type HelpEntry struct{ Name, Says string }

// helpWidth is the width help is written for where the terminal is no narrower.
const helpWidth = 80

// Text writes the help.
func (h *Help) Text(w io.Writer, style Style) error {
	if style.Width == 0 || style.Width > helpWidth {
		style.Width = helpWidth
	}
	p := &printer{w: w, style: style}
	p.line("%s", strings.TrimSpace(h.Long))
	p.line("\n%s %s", style.Bold("usage:"), h.Usage)
	if h.Examples != "" {
		p.line("\n%s\n%s", style.Bold("examples:"), strings.TrimRight(h.Examples, "\n"))
	}
	for _, l := range h.Lists {
		p.helpList(l)
	}
	return p.err
}

func (p *printer) helpList(l HelpList) {
	if len(l.Entries) == 0 {
		return
	}
	widest := 0
	for _, e := range l.Entries {
		widest = max(widest, text.StringWidth(e.Name))
	}
	p.line("\n%s", p.style.Bold(l.Title+":"))
	for _, e := range l.Entries {
		p.wrapped("  "+text.Pad(e.Name, widest, ' ')+"  ", e.Says)
	}
}
