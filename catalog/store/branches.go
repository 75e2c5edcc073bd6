package store

import (
	"encoding/binary"
	"hash/crc32"
	"io"
	"os"
	"slices"

	"go.etcd.io/bbolt"
)

// branches are the pages of a blob file that only lead to others. A damaged
// one could lead in a circle, which bbolt would follow for ever; so they are
// checked before the file is used.
type branches struct {
	PageSize int    `json:"page_size"`
	Pages    []int  `json:"pages"`
	CRC      uint32 `json:"crc32c"`
}

// The head of a page in a bbolt file, and of an entry of a branch page, in the
// byte order of the machine: go.etcd.io/bbolt/internal/common, page.go.
const (
	pageFlags    = 8  // two bytes
	pageCount    = 10 // two bytes: entries
	pageHead     = 16
	branchFlag   = 1
	entryBytes   = 16
	entryPage    = 8 // eight bytes: where the entry leads
	pageFlagsEnd = pageCount + 2
)

// branchesOf lists the branches. It reads them from the file: going through the
// memory map would have all of the file count as this process's memory.
func branchesOf(db *bbolt.DB) (branches, error) {
	b := branches{PageSize: db.Info().PageSize}
	f, err := os.Open(db.Path())
	if err != nil {
		return b, err
	}
	defer f.Close()
	var roots []int
	err = db.View(func(tx *bbolt.Tx) error {
		return tx.ForEach(func(_ []byte, bucket *bbolt.Bucket) error {
			roots = append(roots, int(bucket.Root()))
			return nil
		})
	})
	if err != nil {
		return b, err
	}
	for _, root := range roots {
		if err := b.add(f, root); err != nil {
			return b, err
		}
	}
	slices.Sort(b.Pages)
	b.CRC, err = b.sum(f)
	return b, err
}

// add adds a page, where it is a branch, and those below.
func (b *branches) add(f io.ReaderAt, id int) error {
	page := make([]byte, b.PageSize)
	at := int64(id) * int64(b.PageSize)
	if _, err := f.ReadAt(page[:pageFlagsEnd], at); err != nil {
		return err
	}
	if binary.NativeEndian.Uint16(page[pageFlags:])&branchFlag == 0 {
		return nil
	}
	if _, err := f.ReadAt(page, at); err != nil {
		return err
	}
	b.Pages = append(b.Pages, id)
	for i := range int(binary.NativeEndian.Uint16(page[pageCount:])) {
		below := binary.NativeEndian.Uint64(page[pageHead+i*entryBytes+entryPage:])
		if err := b.add(f, int(below)); err != nil {
			return err
		}
	}
	return nil
}

// sum gives the CRC-32C of the branches as they stand in f.
func (b branches) sum(f io.ReaderAt) (crc uint32, err error) {
	page := make([]byte, b.PageSize)
	for _, id := range b.Pages {
		if _, err := f.ReadAt(page, int64(id)*int64(b.PageSize)); err != nil {
			return 0, err
		}
		crc = crc32.Update(crc, castagnoli, page)
	}
	return crc, nil
}

// check says what is wrong with the branches of the file at path; empty where
// they are whole.
func (b branches) check(path string) (reason string, err error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	crc, err := b.sum(f)
	switch {
	case err == io.EOF || err == io.ErrUnexpectedEOF:
		return "it is too short", nil
	case err != nil:
		return "", err
	case crc != b.CRC:
		return "its page tree has changed", nil
	}
	return "", nil
}
