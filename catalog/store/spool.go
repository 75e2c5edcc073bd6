package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
)

// spool keeps the chunks of an import in a file until all rows are known. Only
// then is it known which of them later rows overtake, and how many there are.
type spool struct {
	file   *os.File
	chunks []spooled
	b      []byte // a chunk
}

// spooled is what is known of a chunk in the spool.
type spooled struct {
	bytes int
	rows  int
	first int      // number of its first row, as rows were added
	dead  []uint64 // bit by row: overtaken; nil where none is
}

// dropped says whether a row of the chunk was overtaken.
func (s *spooled) dropped(row int) bool { return s.dead != nil && s.dead[row/64]>>(row%64)&1 == 1 }

func createSpool(path string) (*spool, error) {
	f, err := os.Create(path)
	if err != nil {
		return nil, err
	}
	return &spool{file: f}, nil
}

// rows gives the number of rows added.
func (s *spool) rows() int {
	if len(s.chunks) == 0 {
		return 0
	}
	last := s.chunks[len(s.chunks)-1]
	return last.first + last.rows
}

func (s *spool) add(c *chunk, fields int) error {
	s.b = c.append(s.b[:0], fields)
	s.chunks = append(s.chunks, spooled{bytes: len(s.b), rows: c.rows, first: s.rows()})
	_, err := s.file.Write(s.b)
	return err
}

// drop notes that a row was overtaken.
func (s *spool) drop(row int) {
	i := len(s.chunks) - 1
	for s.chunks[i].first > row { // mostly near: a list repeats itself page by page
		i--
	}
	c := &s.chunks[i]
	if c.dead == nil {
		c.dead = make([]uint64, (c.rows+63)/64)
	}
	row -= c.first
	c.dead[row/64] |= 1 << (row % 64)
}

// each passes the chunks in the order they were added. What a chunk holds is
// only valid during its call.
func (s *spool) each(fields int, pass func(c *chunk, s *spooled) error) error {
	if _, err := s.file.Seek(0, io.SeekStart); err != nil {
		return err
	}
	for i := range s.chunks {
		n := s.chunks[i].bytes
		s.b = slices.Grow(s.b[:0], n)[:n]
		_, err := io.ReadFull(s.file, s.b)
		var c *chunk
		if err == nil {
			c, err = readChunk(s.b, fields)
		}
		if err != nil {
			return fmt.Errorf("read back import: %w", err)
		}
		if err := pass(c, &s.chunks[i]); err != nil {
			return err
		}
	}
	return nil
}

// remove ends the spool.
func (s *spool) remove() error {
	return errors.Join(s.file.Close(), os.Remove(s.file.Name()))
}

// append adds a chunk as the spool has it.
func (c *chunk) append(b []byte, fields int) []byte {
	b = binary.AppendUvarint(b, uint64(c.rows))
	for _, block := range c.blocks {
		b = append(binary.AppendUvarint(b, uint64(len(block))), block...)
	}
	for _, id := range pieceIDs(fields) {
		b = append(binary.AppendUvarint(b, uint64(len(c.pieces[id]))), c.pieces[id]...)
	}
	return append(b, c.parts...)
}

// readChunk reads what append wrote, as views.
func readChunk(b []byte, fields int) (*chunk, error) {
	r := cursor{b: b}
	c := &chunk{rows: int(min(r.uint(), chunkRows)), pieces: map[pieceID][]byte{}}
	for range blocksOf(c.rows) {
		c.blocks = append(c.blocks, r.bytes(r.count(1)))
	}
	for _, id := range pieceIDs(fields) {
		c.pieces[id] = r.bytes(r.count(1))
	}
	c.parts = r.bytes(8 * c.rows)
	return c, r.done()
}

// pieceIDs lists the pieces of a chunk, but for those that only come with the
// word index.
func pieceIDs(fields int) []pieceID {
	list := make([]pieceID, 0, fields+len(specials))
	for i := range fields {
		list = append(list, pieceID(i))
	}
	return append(list, specials[:]...)
}
