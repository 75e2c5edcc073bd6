package store

import (
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/index"
)

// The word index holds of a fan its names and codes, its texts, and as words how
// it is built and what it runs on. Which texts a row has stands in the columns.

// wordRows shows the rows of a catalogue to its word index.
type wordRows struct{ catalogue *Catalogue }

// Groups gives the number of groups of chunks.
func (w wordRows) Groups() int { return w.catalogue.chunks.groups() }

// Group passes the chunks of a group.
func (w wordRows) Group(n int, pass func(index.Chunk) error) error {
	return w.catalogue.blobs.read(func(get getter) error {
		g, err := w.open(get, n)
		if err != nil {
			return err
		}
		begin, end := w.catalogue.chunks.group(n)
		for i := range end - begin {
			c, err := g.chunk(begin+i, i)
			if err == nil {
				err = pass(c)
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
}

// wordGroup is what a group keeps for the word index: by chunk.
type wordGroup struct {
	catalogue *Catalogue
	slots     [][][]byte // by slot
	keys      [][]byte
	extras    [][]byte
	texts     [][]byte
}

func (w wordRows) open(get getter, group int) (*wordGroup, error) {
	g := &wordGroup{catalogue: w.catalogue}
	slots := w.catalogue.schema.slots()
	var pieces [][][]byte
	for _, id := range append(slots, pieceKeys, pieceExtras, pieceTexts) {
		list, err := w.catalogue.groupPieces(get, group, id)
		if err != nil {
			return nil, err
		}
		pieces = append(pieces, list)
	}
	n := len(slots)
	g.slots, g.keys, g.extras, g.texts = pieces[:n], pieces[n], pieces[n+1], pieces[n+2]
	return g, nil
}

// chunk gives the i-th chunk of the group, which is the n-th of the catalogue.
func (g *wordGroup) chunk(n, i int) (index.Chunk, error) {
	rows := g.catalogue.chunks.rows(n)
	c := index.Chunk{First: g.catalogue.chunks.first(n), Keys: g.keys[i]}
	numbers := cursor{b: g.texts[i]}
	for _, slot := range g.slots {
		c.Slots = append(c.Slots, wordSlot(slot[i], rows, &numbers))
	}
	extras := cursor{b: g.extras[i]}
	for range extras.count(1) {
		c.Slots = append(c.Slots, wordSlot(extras.bytes(extras.count(1)), rows, &numbers))
	}
	if extras.done() != nil || numbers.done() != nil {
		return c, g.catalogue.pieceDamage(pieceTexts, n, n+1)
	}
	return c, nil
}

// wordSlot gives the slot of a column of texts, whose numbers come next.
func wordSlot(column []byte, rows int, numbers *cursor) index.Slot {
	c := cursor{b: column}
	p := c.coded(rows)
	s := index.Slot{Codes: p.codes, Width: p.width, Texts: make([]uint32, p.count)}
	for i := range s.Texts {
		s.Texts[i] = uint32(numbers.uint())
	}
	if c.bad {
		numbers.fail()
	}
	return s
}

// frameWords gives "axial 60x60x25 60mm".
func frameWords(f *catalog.Fan) string {
	kind, _ := f.Kind.Get()
	words := []string{kind.String()}
	var sizes []string
	for _, id := range []catalog.FieldID{catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth} {
		if size := catalog.Fields[id].Format(f); size != "" {
			sizes = append(sizes, size)
		}
	}
	words = append(words, strings.Join(sizes, "x"))
	if width := catalog.Fields[catalog.FieldWidth].Format(f); width != "" {
		words = append(words, width+"mm")
	}
	return strings.Join(words, " ")
}

// supplyWords gives "12V DC 12VDC PWM".
func supplyWords(f *catalog.Fan) string {
	supply, _ := f.Supply.Get()
	words := []string{supply.String()}
	if volts := catalog.Fields[catalog.FieldVoltage].Format(f); volts != "" {
		words = append(words, volts+"V", volts+"V"+supply.String())
	}
	if pwm, _ := f.PWM.Get(); pwm {
		words = append(words, "pwm")
	}
	return strings.Join(words, " ")
}
