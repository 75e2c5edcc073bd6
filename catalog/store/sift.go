package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"lowsone/catalog"
)

// Where the pages of a blob file no longer lead to its blobs, the records are
// found without them: they stand in one piece behind their key, and their heads
// have checksums over key and content. A sifted file is read from its first byte
// to its last for such heads.

// sifted are the records of a blob file found by sifting.
type sifted struct {
	file   *os.File
	blobs  map[int]int64 // by chunk: where its records begin
	chunks chunkTable
}

// siftWindow is how much of a file is looked at at once.
const siftWindow = 1 << 20

// sift finds the records of the chunks in the blob file at path; nil where there
// is no such file.
func sift(ctx context.Context, path string, chunks chunkTable) (*sifted, error) {
	f, err := openThere(path)
	if f == nil {
		return nil, err
	}
	s := &sifted{file: f, blobs: map[int]int64{}, chunks: chunks}
	const most = 4 + 4*(chunkRows/blockRows+1)
	err = windows(ctx, f, most, func(b []byte, offset int64) error {
		for i := range len(b) - 8 {
			n := binary.BigEndian.Uint32(b[i:])
			if int64(n) < int64(chunks.len()) && s.begins(int(n), b[i+4:]) {
				s.blobs[int(n)] = offset + int64(i) + 4
			}
		}
		return nil
	})
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return s, nil
}

// begins says whether b begins with the head of the records of a chunk.
func (s *sifted) begins(chunk int, b []byte) bool {
	size := 4 * blocksOf(s.chunks.rows(chunk))
	return len(b) >= size+4 && binary.LittleEndian.Uint32(b[size:]) == rowsPlace(chunk).crc(b[:size])
}

// blob reads the records of a chunk; nil where they were not found.
func (s *sifted) blob(chunk int) []byte {
	begin, ok := s.blobs[chunk]
	if !ok {
		return nil
	}
	blocks := blocksOf(s.chunks.rows(chunk))
	head := make([]byte, 4*(blocks+1))
	if _, err := s.file.ReadAt(head, begin); err != nil {
		return nil
	}
	blob := make([]byte, recordsSize(head, blocks))
	n, _ := s.file.ReadAt(blob, begin) // what is cut off is the records' last blocks
	return blob[:n]
}

func (s *sifted) close() error { return s.file.Close() }

// recordsSize gives the size of the records whose head this is.
func recordsSize(head []byte, blocks int) int {
	size := 4 * (blocks + 1)
	for i := range blocks {
		size += 4 + int(min(binary.LittleEndian.Uint32(head[4*i:]), mostBlock))
	}
	return size
}

// mostBlock bounds what the head of records may claim of a block.
const mostBlock = 2 * blockRows * maxRecord

// siftAbout finds what a blob file says of itself. Errors: *DamagedError where
// it says nothing, *NewerError, those of reading.
func siftAbout(ctx context.Context, path string) (*manifest, error) {
	f, err := openThere(path)
	if err != nil {
		return nil, err
	}
	if f == nil {
		return nil, &DamagedError{path, "it is missing"}
	}
	defer f.Close()
	var found *manifest
	err = windows(ctx, f, len(aboutPlace.key)+8, func(b []byte, offset int64) error {
		for i := 0; found == nil; {
			at := bytes.Index(b[i:], []byte(aboutPlace.key))
			if at < 0 {
				return nil
			}
			i += at + len(aboutPlace.key)
			m, err := readAbout(f, path, offset+int64(i))
			var newer *NewerError
			if errors.As(err, &newer) {
				return err
			}
			found = m
		}
		return nil
	})
	if err == nil && found == nil {
		err = &DamagedError{path, fmt.Sprintf("%v: nothing stands there", aboutPlace)}
	}
	return found, err
}

// readAbout reads the about blob that may begin at a place of f.
func readAbout(f *os.File, path string, begin int64) (*manifest, error) {
	var head [8]byte
	if _, err := f.ReadAt(head[:], begin); err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	length := int64(binary.LittleEndian.Uint32(head[4:]))
	if length > info.Size()-begin {
		return nil, errBytes
	}
	content := make([]byte, 4+length)
	if _, err := f.ReadAt(content, begin+4); err != nil {
		return nil, err
	}
	if binary.LittleEndian.Uint32(head[:]) != aboutPlace.crc(content) {
		return nil, errBytes
	}
	return decodeAbout(path, content)
}

// openThere opens a file; nil where there is none.
func openThere(path string) (*os.File, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return f, err
}

// windows passes a file in windows that overlap by so many bytes, but for what
// cannot be read of it.
func windows(ctx context.Context, f *os.File, overlap int, pass func(b []byte, offset int64) error) error {
	buffer := make([]byte, siftWindow+overlap)
	for offset := int64(0); ; offset += siftWindow {
		if err := ctx.Err(); err != nil {
			return err
		}
		n, err := f.ReadAt(buffer, offset)
		if passed := pass(buffer[:n], offset); passed != nil {
			return passed
		}
		if err == io.EOF {
			return nil
		}
		if info, stat := f.Stat(); err != nil && (stat != nil || offset+siftWindow >= info.Size()) {
			return stat
		}
	}
}

// savedBlock gives a block of the records at a place by the checksum of the
// block alone: that of the head may be wrong, and so may one of the sizes there,
// which then follows from the others.
func savedBlock(p place, blob []byte, n, blocks int) []byte {
	if len(blob) < 4*(blocks+1) {
		return nil
	}
	size := func(i int) int { return int(min(binary.LittleEndian.Uint32(blob[4*i:]), mostBlock)) }
	rest := len(blob) - recordsSize(blob, blocks)
	at := 4 * (blocks + 1)
	for i := range n + 1 {
		block := blockAt(p, blob, at, i, size(i))
		length := size(i)
		if other := length + rest; block == nil && rest != 0 {
			if block = blockAt(p, blob, at, i, other); block != nil {
				length, rest = other, 0
			}
		}
		if i == n {
			return block
		}
		at += 4 + length
	}
	return nil
}

// blockAt gives a block that begins with its checksum; nil where it is none.
func blockAt(p place, blob []byte, at, n, size int) []byte {
	c := cursor{b: blob}
	if size < 0 || at < 0 || size > len(blob) || at > len(blob) {
		return nil
	}
	c.bytes(at)
	crc, content := c.bytes(4), c.bytes(size)
	if c.bad || len(crc) < 4 || binary.LittleEndian.Uint32(crc) != p.blockCRC(n, content) {
		return nil
	}
	return content
}

// savedFans gives the fans of a block of records, wherever they are whole.
func (s schema) savedFans(p place, blob []byte, n, rows int) []*catalog.Fan {
	block := savedBlock(p, blob, n, blocksOf(rows))
	if block == nil {
		return nil
	}
	fans, err := s.readBlock(block, min(blockRows, rows-n*blockRows), -1)
	if err != nil {
		return nil
	}
	return fans
}
