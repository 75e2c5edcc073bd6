package store

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"io"
)

// blockRows is how many records are pressed together: enough for repeated
// words to pay (measured on a distributor's list: 16 rows 351 bytes a row in
// all, 32 rows 258, 128 rows 243), few enough to read one record quickly, and
// little to lose to one damaged byte.
const blockRows = 32

// maxBlock bounds what a block may claim to unfold to.
const maxBlock = blockRows * (maxRecord + binary.MaxVarintLen32)

// blockWriter presses records into blocks.
type blockWriter struct {
	lengths []byte
	records []byte
	rows    int
	press   *flate.Writer
	out     bytes.Buffer
}

func newBlockWriter() *blockWriter {
	press, err := flate.NewWriter(io.Discard, flate.BestSpeed)
	if err != nil {
		panic(err) // only for a level that flate does not have
	}
	return &blockWriter{press: press}
}

func (w *blockWriter) add(record []byte) {
	w.lengths = binary.AppendUvarint(w.lengths, uint64(len(record)))
	w.records = append(w.records, record...)
	w.rows++
}

// take gives the block of the records added and begins the next. A block is
// the number of its bytes, then, pressed, the lengths of the records and the
// records.
func (w *blockWriter) take() ([]byte, error) {
	w.out.Reset()
	w.out.Write(binary.AppendUvarint(nil, uint64(len(w.lengths)+len(w.records))))
	w.press.Reset(&w.out)
	for _, part := range [][]byte{w.lengths, w.records} {
		if _, err := w.press.Write(part); err != nil {
			return nil, err
		}
	}
	if err := w.press.Close(); err != nil {
		return nil, err
	}
	w.lengths, w.records, w.rows = w.lengths[:0], w.records[:0], 0
	return bytes.Clone(w.out.Bytes()), nil
}

// unfold gives the records of a block of so many rows, as views of new memory.
func unfold(block []byte, rows int) ([][]byte, error) {
	c := cursor{b: block}
	size := c.uint()
	if c.bad || size > maxBlock || rows > blockRows {
		return nil, errBytes
	}
	raw, err := inflate(c.b, int(size))
	if err != nil {
		return nil, err
	}
	lengths := make([]int, rows)
	c = cursor{b: raw}
	for i := range lengths {
		lengths[i] = c.count(1)
	}
	records := make([][]byte, rows)
	for i, n := range lengths {
		records[i] = c.bytes(n)
	}
	return records, c.done()
}

// inflate gives the size bytes that pressed unfolds to. Memory grows with what
// is really there, not with what size claims.
func inflate(pressed []byte, size int) ([]byte, error) {
	r := flate.NewReader(bytes.NewReader(pressed))
	var raw bytes.Buffer
	raw.Grow(min(size, 64*len(pressed)))
	n, err := io.Copy(&raw, io.LimitReader(r, int64(size)+1))
	if err != nil || n != int64(size) {
		return nil, errBytes
	}
	return raw.Bytes(), nil
}
