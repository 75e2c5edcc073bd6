package view

import (
	"fmt"
	"io"
)

// ImportBrief is an account of an import in a few lines.
type ImportBrief struct{ Import }

// Text writes how the file was read, the counts, and one rejected row.
func (m *ImportBrief) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	taken := 0
	for i := range m.Columns {
		if m.Columns[i].Taken() {
			taken++
		}
	}
	p.wrapped("", Clean(fmt.Sprintf("%s; %d of %s read, the others kept as they are", dialectWords(m.Format), taken, count(len(m.Columns), "column"))))
	m.totals(p)
	if len(m.Rejects) > 0 {
		p.wrapped("rejected, for example: ", Clean(m.rejectText(m.Rejects[0])))
	}
	return p.err
}
