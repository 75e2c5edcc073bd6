package store

import (
	"hash/crc32"
	"io"
	"os"

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

func branchesOf(db *bbolt.DB) (branches, error) {
	b := branches{PageSize: db.Info().PageSize}
	tx, err := db.Begin(true) // only a writing one knows the free pages
	if err != nil {
		return b, err
	}
	defer tx.Rollback()
	for id := 0; ; {
		page, err := tx.Page(id)
		if err != nil {
			return b, err
		}
		if page == nil {
			break
		}
		next := id + 1
		if page.Type != "free" { // a free page holds no count but what was left in it
			next += page.OverflowCount
		}
		for ; page.Type == "branch" && id < next; id++ {
			b.Pages = append(b.Pages, id)
		}
		id = next
	}
	f, err := os.Open(db.Path())
	if err != nil {
		return b, err
	}
	defer f.Close()
	b.CRC, err = b.sum(f)
	return b, err
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
