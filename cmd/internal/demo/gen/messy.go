package gen

import (
	"bufio"
	"bytes"
	"io"
	"math/rand/v2"
	"strings"
)

// Account is what an honest import of the untidy list must come to.
type Account struct {
	Rows     int // rows below the header; blank lines are no rows
	Repeated int // rows whose key (maker and part) comes again further down
	Bad      []BadRow
}

// BadRow is a row that must be rejected.
type BadRow struct {
	Line         int    // physical line on which the row begins, from 1
	Header, Cell string // the column that is wrong and what stands there; empty: the row as a whole
	Reason       string
}

const (
	utf8BOM   = "\xef\xbb\xbf"
	lineEnd   = "\r\n"
	delimiter = ';'
)

// WriteMessy writes the fans as a small distributor's list, the way a German spreadsheet saves "CSV UTF-8": byte order mark, semicolons,
// CR LF (LF inside cells), decimal commas, two title lines and a blank line above a header of German and English trade words with
// units, one of them over two lines. UTF-8 and not Windows-1252, because □ and ₂ are in the makers' spellings and because people
// read the file in a repository. What is untidy in it is told by the functions behind its columns; some rows come twice, some are bad, and
// the account says which. Every known value of specs is in the last row of its key, to half a unit of the last digit printed there
// (a frame in inches: 0.7 mm); a tach_per_rev unknown on a 3-lead fan stands as the word Alarm.
func WriteMessy(w io.Writer, specs []Spec, seed uint64) (Account, error) {
	m := &messy{out: bufio.NewWriterSize(w, flushAt), seed: seed, defects: defects(), repeats: repeats(specs, seed)}
	m.head()
	for i := range specs {
		m.early(specs, i)
		m.sections(specs, i)
		m.row(m.cells(specs, i), i)
		m.turn(specs, i)
		if i == len(specs)/2 {
			m.raw(lineEnd)
		}
	}
	for len(specs) > 0 && len(m.defects) > 0 {
		m.bad(specs, len(specs)-1)
	}
	m.raw(lineEnd)
	return m.account, m.out.Flush()
}

// messy is a list being written. The first error stays in out and comes back from its Flush.
type messy struct {
	out     *bufio.Writer
	buf     []byte
	lines   int // physical lines finished
	seed    uint64
	defects []defect // still to come
	placed  int
	repeats map[int][]repeat // by the row before which they stand
	account Account
}

// repeat is an earlier row of a fan: an old price, other spelling, or exactly the same row.
type repeat struct {
	index int
	same  bool
}

// repeats draws which fans come twice: about one in 36, one of four with the very same row.
func repeats(specs []Spec, seed uint64) map[int][]repeat {
	rng := rand.New(rand.NewPCG(seed, 1<<62))
	out := map[int][]repeat{}
	for i, k := 20, 0; i < len(specs); i, k = i+24+rng.IntN(24), k+1 {
		before := max(i-1-rng.IntN(18), 0)
		out[before] = append(out[before], repeat{index: i, same: k%4 == 3})
	}
	return out
}

func (m *messy) head() {
	pad := strings.Repeat(";", len(columns)-1)
	m.raw(utf8BOM + "Toernsund Bauteile – Lüfter-Sortiment / fan stock list" + pad + lineEnd)
	m.raw("\"Stand 03/2026; Preise netto, freibleibend / prices net, subject to change\"" + pad + lineEnd)
	m.raw(lineEnd)
	m.line(headers())
}

// raw writes text as it is.
func (m *messy) raw(text string) {
	m.out.WriteString(text)
	m.lines += strings.Count(text, "\n")
}

// line writes one record.
func (m *messy) line(cells []string) {
	m.buf = m.buf[:0]
	for i, cell := range cells {
		if i > 0 {
			m.buf = append(m.buf, delimiter)
		}
		m.buf = appendCell(m.buf, cell, delimiter)
	}
	m.buf = append(m.buf, lineEnd...)
	m.out.Write(m.buf)
	m.lines += bytes.Count(m.buf, []byte{'\n'})
}

// cells writes the cells of fan i. The same fan gives the same cells every time.
func (m *messy) cells(specs []Spec, i int) []string {
	h := hand{rng: rand.New(rand.NewPCG(m.seed, 1<<63|uint64(i))), s: &specs[i], pos: i + 1}
	cells := make([]string, len(columns), len(columns)+3)
	for c := range columns {
		cells[c] = columns[c].cell(&h)
	}
	return cells
}

// row writes a good row; some end in surplus empty cells.
func (m *messy) row(cells []string, i int) {
	if i%11 == 7 {
		cells = append(cells, make([]string, 1+i%3)...)
	}
	m.line(cells)
	m.account.Rows++
}

// early writes the first appearance of fans that come again later.
func (m *messy) early(specs []Spec, i int) {
	for _, r := range m.repeats[i] {
		cells := m.cells(specs, r.index)
		if !r.same {
			old := specs[r.index]
			old.Price.Value *= 0.9
			h := hand{rng: rand.New(rand.NewPCG(m.seed, uint64(i))), s: &old}
			cells[at("Preis netto")] = h.price()
			cells[at("Hersteller")] = strings.ToUpper(old.Maker) + " "
			cells[at("Typ / type")] = strings.ToLower(old.Part)
			cells[at("Lagerbestand")] = "0"
		}
		m.line(cells)
		m.account.Rows++
		m.account.Repeated++
	}
}

// sections writes the bad rows that stand before a certain fan.
func (m *messy) sections(specs []Spec, i int) {
	for len(m.defects) > 0 && m.defects[0].before != nil && m.defects[0].before(&specs[i]) {
		m.bad(specs, i)
	}
}

// turn writes the next bad row when its turn has come and the fan fits.
func (m *messy) turn(specs []Spec, i int) {
	if len(m.defects) == 0 || m.defects[0].before != nil {
		return
	}
	d := m.defects[0]
	if i < (m.placed+1)*len(specs)/(m.placed+len(m.defects)+1) || d.fits != nil && !d.fits(&specs[i]) {
		return
	}
	m.bad(specs, i)
}

// bad makes the next bad row from fan i.
func (m *messy) bad(specs []Spec, i int) {
	d := m.defects[0]
	m.defects, m.placed = m.defects[1:], m.placed+1
	cells := m.cells(specs, i)
	cells[at("Typ / type")] = oldPart(specs[i].Part)
	cells[at("Bestell-Nr.")] += "A"
	if d.header != "" && d.mangle == nil || d.cell != "" {
		cells[at(d.header)] = d.cell
	}
	if d.mangle != nil {
		cells = d.mangle(cells)
	}
	bad := BadRow{Line: m.lines + 1, Header: d.header, Reason: d.reason}
	if d.header != "" {
		bad.Cell = cells[at(d.header)]
	}
	m.account.Bad = append(m.account.Bad, bad)
	m.line(cells)
	m.account.Rows++
}
