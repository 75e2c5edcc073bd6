package index

import (
	"path/filepath"
	"testing"
)

// row is what an index knows of a catalogue row.
type row struct {
	Part  string
	Codes []string
	Texts []string
}

// shelves holds rows in memory as a catalogue holds them on disk.
type shelves []Chunk

// Two chunks make a group.
func (s shelves) Groups() int { return (len(s) + 1) / 2 }

func (s shelves) Group(n int, pass func(Chunk) error) error {
	for _, c := range s[2*n : min(len(s), 2*n+2)] {
		if err := pass(c); err != nil {
			return err
		}
	}
	return nil
}

// shelve puts rows into chunks of so many.
func shelve(b *Builder, rows []row, perChunk int) shelves {
	var s shelves
	for first := 0; first < len(rows); first += perChunk {
		s = append(s, chunkOf(b, first, rows[first:min(len(rows), first+perChunk)]))
	}
	return s
}

// chunkOf makes a chunk whose slots have in turn each form of codes.
func chunkOf(b *Builder, first int, rows []row) Chunk {
	c := Chunk{First: first}
	var w KeyWriter
	slots := 0
	for _, r := range rows {
		w.Add(r.Part, r.Codes...)
		slots = max(slots, len(r.Texts))
	}
	c.Keys = w.Take()
	for i := range slots {
		s := Slot{Width: (first + i) % 3}
		if s.Width == 1 && len(rows) > 256 {
			s.Width = 2
		}
		places := map[uint32]int{}
		for _, r := range rows {
			text := uint32(0)
			if i < len(r.Texts) {
				text = b.Text([]byte(r.Texts[i]))
			}
			place, known := places[text]
			if !known || s.Width == 0 {
				place = len(s.Texts)
				places[text] = place
				s.Texts = append(s.Texts, text)
			}
			s.Codes = append(s.Codes, []byte{byte(place), byte(place >> 8)}[:s.Width]...)
		}
		c.Slots = append(c.Slots, s)
	}
	return c
}

// build makes an index of rows, in chunks of so many.
func build(t testing.TB, rows []row, perChunk int) *Index {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "words")
	b, err := NewBuilder(dir)
	if err != nil {
		t.Fatal(err)
	}
	s := shelve(b, rows, perChunk)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	x, err := Open(dir, b.Texts(), s)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { x.Close() })
	return x
}
