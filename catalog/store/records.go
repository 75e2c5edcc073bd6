package store

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"

	"lowsone/catalog"
)

// The records of a chunk are one blob of blocks, each with a checksum of its
// own, so that a damaged byte takes one block and no more:
//
//	head: for each block its number of bytes, four bytes each; then their CRC
//	blocks: CRC-32C over place, number and content; content

// recordsBlob gives the blob of the blocks at a place.
func recordsBlob(p place, blocks [][]byte) []byte {
	size := 4 * (len(blocks) + 1)
	for _, b := range blocks {
		size += 4 + len(b)
	}
	out := make([]byte, 0, size)
	for _, b := range blocks {
		out = binary.LittleEndian.AppendUint32(out, uint32(len(b)))
	}
	out = binary.LittleEndian.AppendUint32(out, p.crc(out))
	for i, b := range blocks {
		out = binary.LittleEndian.AppendUint32(out, p.blockCRC(i, b))
		out = append(out, b...)
	}
	return out
}

func (p place) blockCRC(n int, block []byte) uint32 {
	var at [4]byte
	binary.LittleEndian.PutUint32(at[:], uint32(n))
	return crc32.Update(p.crc(at[:]), castagnoli, block)
}

// blockOf gives a block of the records at a place, of so many blocks.
func blockOf(p place, blob []byte, n, blocks int) ([]byte, string) {
	c := cursor{b: blob}
	head := c.bytes(4 * blocks)
	crc := c.bytes(4)
	if crc == nil || binary.LittleEndian.Uint32(crc) != p.crc(head) {
		return nil, "its head has changed"
	}
	size := func(i int) int { return int(binary.LittleEndian.Uint32(head[4*i:])) }
	for i := range n {
		c.bytes(4 + size(i))
	}
	crc, content := c.bytes(4), c.bytes(size(n))
	if c.bad || len(crc) < 4 || binary.LittleEndian.Uint32(crc) != p.blockCRC(n, content) {
		return nil, "the content has changed"
	}
	return content, ""
}

// block reads a block of the records of a chunk, as a view that holds until the
// read ends.
func (c *Catalogue) block(get getter, chunk, n int) ([]byte, error) {
	p := rowsPlace(chunk)
	blob, err := get(p)
	if err != nil {
		return nil, err
	}
	block, reason := blockOf(p, blob, n, blocksOf(c.chunks.rows(chunk)))
	if reason != "" {
		return nil, c.blockDamage(chunk, n, reason)
	}
	return block, nil
}

func (c *Catalogue) blockDamage(chunk, n int, reason string) error {
	first := c.chunks.first(chunk) + n*blockRows
	last := min(first+blockRows, c.chunks.first(chunk+1)) - 1
	return &DamagedError{c.blobs.path, fmt.Sprintf("rows %d to %d: %s", first, last, reason)}
}

// readBlock reads the fans of a block, all or only one row of it.
func (c *Catalogue) readBlock(chunk, n, only int) (fans []*catalog.Fan, err error) {
	rows := min(blockRows, c.chunks.rows(chunk)-n*blockRows)
	err = c.blobs.read(func(get getter) error {
		block, err := c.block(get, chunk, n)
		if err != nil {
			return err
		}
		if fans, err = c.schema.readBlock(block, rows, only); err != nil {
			return c.blockDamage(chunk, n, err.Error())
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return c.named(fans, chunk), nil
}

// named names the source of the fans of a chunk.
func (c *Catalogue) named(fans []*catalog.Fan, chunk int) []*catalog.Fan {
	source := c.sourceOf(c.chunks.first(chunk))
	for _, f := range fans {
		if f != nil {
			f.Source.Name = source
		}
	}
	return fans
}
