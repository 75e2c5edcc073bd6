package view

import (
	"fmt"
	"io"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/intake"
)

// Import is what became of an import. Verbose says in full how columns were
// recognised.
type Import struct {
	intake.Account
	Verbose bool
}

// Text writes how the file was read, what its columns were taken for, and what
// became of its rows.
func (m *Import) Text(w io.Writer, style Style) error {
	p := &printer{w: w, style: style}
	p.wrapped("", fmt.Sprintf("%s: %s", Clean(m.name()), dialectWords(m.Format)))
	for _, note := range m.Format.Notes {
		p.wrapped("  ", Clean(note))
	}
	p.line("")
	if p.err == nil {
		p.err = m.columnTable().Write(w, style.within(proseWidth))
	}
	m.columnNotes(p)
	m.warnings(p)
	m.rejects(p)
	m.totals(p)
	m.values(p)
	m.unstated(p)
	m.forgotten(p)
	return p.err
}

// name is what messages call the file.
func (m *Import) name() string {
	if m.File == "-" {
		return "standard input"
	}
	return m.File
}

// warnings writes what the reading of cells had to say, ten kinds of it.
func (m *Import) warnings(p *printer) {
	if len(m.Warnings) == 0 {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold("warnings"))
	for _, w := range m.Warnings[:min(len(m.Warnings), listRows)] {
		text := w.Reason
		if w.Header != "" {
			text = fmt.Sprintf("%q: %s", headerOf(w.Header), text)
		}
		example := ""
		if w.Example != "" {
			example = ": " + w.Example
		}
		p.wrapped("  ", Clean(fmt.Sprintf("%s (%s, first on line %d%s)", text, count(w.Count, "row"), w.Line, example)))
	}
	if more := len(m.Warnings) - listRows; more > 0 {
		p.line("  %d more kinds: --format json shows all", more)
	}
}

// rejects writes the first rejected rows.
func (m *Import) rejects(p *printer) {
	if m.Rejected == 0 {
		return
	}
	p.line("")
	p.line("%s", p.style.Bold("rejected rows"))
	shown := min(len(m.Rejects), listRows)
	for _, r := range m.Rejects[:shown] {
		p.wrapped("  ", Clean(m.rejectText(r)))
	}
	if more := m.Rejected - shown; more > 0 {
		p.line("  %d more", more)
	}
	if m.RejectsFile != "" {
		p.line("  all of them, whole: %s", Clean(m.RejectsFile))
	}
}

// rejectText is file:line:column: "header": reason, or file:sheet!cell, with the cell where the
// reason does not show it and the mend where it can be named.
func (m *Import) rejectText(r intake.Reject) string {
	text := m.name() + ":" + m.Format.Place(r.At)
	if r.Header != "" {
		text += fmt.Sprintf(": %q", headerOf(r.Header))
	}
	text += ": " + r.Reason
	if r.Cell != "" && !strings.Contains(r.Reason, r.Cell) {
		text += fmt.Sprintf(": %q", short(r.Cell))
	}
	if r.Hint != "" {
		text += " (" + r.Hint + ")"
	}
	return text
}

// longestHeader is how many characters of a header are shown.
const longestHeader = 200

// headerOf cuts a header that is no name of a column.
func headerOf(text string) string {
	if runes := []rune(text); len(runes) > longestHeader {
		return string(runes[:longestHeader]) + "…"
	}
	return text
}

// totals writes what became of the rows.
func (m *Import) totals(p *printer) {
	p.line("")
	p.wrapped("", fmt.Sprintf("%s: %d imported, %d rejected, %s", count(m.Rows, "row"), m.Imported, m.Rejected, m.repeated()))
	if text := m.lacks(); text != "" {
		p.wrapped("", text)
	}
	if m.Unrankable > 0 {
		p.line("not rankable: %s (no curve, no airflow and no pressure, or crossflow)", count(m.Unrankable, "fan"))
	}
	if m.Gone > 0 && m.Fans > 0 {
		p.wrapped("", fmt.Sprintf("given up: %s of the last import of %q, no longer in the file or under another maker or part in it", count(m.Gone, "fan"), Clean(m.Source)))
		if text := m.otherFile(); text != "" {
			p.wrapped("", Clean(text))
		}
	}
	switch {
	case m.Renewed:
		p.wrapped("", fmt.Sprintf("no fan is new; of parts that other sources list too, %q counts now as the one imported last", Clean(m.Source)))
	case m.DryRun:
		p.line("dry run: nothing was written")
	case !m.Changed && m.Fans > 0:
		p.line("nothing new: the catalogue stays as it was")
	}
}

// otherFile says what the source was read from before, where that was something
// else: the two may be two lists of one name.
func (m *Import) otherFile() string {
	switch b := m.Before; {
	case b.Path != "" && m.Path != "" && b.Path != m.Path:
		return fmt.Sprintf("that import was of %s; to have both lists, give each a name of its own with --source NAME", b.Path)
	case b.Sheet != m.Sheet && b.Sheet != "" && m.Sheet != "":
		return fmt.Sprintf("that import was of sheet %q; to have both, import each with --sheet NAME --source NAME", b.Sheet)
	}
	return ""
}

// repeated counts the rows that brought nothing new, and says why they did not.
func (m *Import) repeated() string {
	var why []string
	if m.Unchanged > 0 {
		why = append(why, fmt.Sprintf("%d unchanged", m.Unchanged))
	}
	if m.Overtaken > 0 {
		why = append(why, fmt.Sprintf("%d twice in the list", m.Overtaken))
	}
	text := fmt.Sprintf("%d repeated", m.Repeated)
	if len(why) > 0 {
		text += " (" + strings.Join(why, ", ") + ")"
	}
	return text
}

// lacks says what fans do not state of that which searching and ranking ask
// for.
func (m *Import) lacks() string {
	var parts []string
	for _, l := range m.Lacks {
		parts = append(parts, catalog.Fields[l.Field].Title+" by "+count(l.Fans, "fan"))
	}
	if len(parts) == 0 {
		return ""
	}
	return "not stated: " + strings.Join(parts, ", ")
}
