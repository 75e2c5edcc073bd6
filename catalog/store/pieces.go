package store

import (
	"encoding/binary"
	"fmt"
)

// pieceWriter collects the pieces of chunks until a group is full.
type pieceWriter struct {
	blobs  *blobWriter
	group  int
	chunks int // of the group so far
	pieces [256][]byte
}

func newPieceWriter(blobs *blobWriter) *pieceWriter { return &pieceWriter{blobs: blobs} }

// add adds a piece of the chunk that is being written.
func (w *pieceWriter) add(id pieceID, piece []byte) {
	b := &w.pieces[id]
	*b = append(binary.AppendUvarint(*b, uint64(len(piece))), piece...)
}

// endChunk ends a chunk, of which all pieces were added.
func (w *pieceWriter) endChunk() error {
	if w.chunks++; w.chunks < groupChunks {
		return nil
	}
	return w.flush()
}

// flush writes the group.
func (w *pieceWriter) flush() error {
	if w.chunks == 0 {
		return nil
	}
	for id, content := range w.pieces {
		if len(content) == 0 {
			continue
		}
		if err := w.blobs.put(columnPlace(w.group, pieceID(id)), content); err != nil {
			return err
		}
		w.pieces[id] = content[:0]
	}
	w.group++
	w.chunks = 0
	return nil
}

// groupPieces gives the pieces of one column in the chunks of a group, as views
// that hold until the read ends.
func (c *Catalogue) groupPieces(get getter, group int, id pieceID) ([][]byte, error) {
	content, err := get(columnPlace(group, id))
	if err != nil {
		return nil, err
	}
	begin, end := c.chunks.group(group)
	r := cursor{b: content}
	pieces := make([][]byte, end-begin)
	for i := range pieces {
		pieces[i] = r.bytes(r.count(1))
	}
	if r.done() != nil {
		return nil, c.pieceDamage(id, begin, end)
	}
	return pieces, nil
}

// pieceDamage says that a column has no valid form in the chunks from begin to
// before end.
func (c *Catalogue) pieceDamage(id pieceID, begin, end int) error {
	what := "words"
	if int(id) < len(c.schema) {
		what = "column " + c.schema[id].Name
	}
	return &DamagedError{c.blobs.path, fmt.Sprintf("%s, rows %d to %d: %v", what, c.chunks.first(begin), c.chunks.first(end)-1, errBytes)}
}
