package store

import (
	"lowsone/catalog"
)

// Find lists the rows of a part, rising, blanks and case folded. An empty
// maker stands for any.
func (c *Catalogue) Find(maker, part string) (rows []int, err error) {
	maker, part = catalog.FoldKey(maker), catalog.FoldKey(part)
	if part == "" {
		return nil, nil
	}
	var candidates []int
	err = c.blobs.read(func(get getter) (err error) {
		candidates, err = rowsWith(get, partHash(part))
		return err
	})
	for _, row := range candidates {
		f, err := c.fan(row)
		if err != nil {
			return nil, err
		}
		if catalog.FoldKey(f.Part) == part && (maker == "" || catalog.FoldKey(f.Maker) == maker) {
			rows = append(rows, row)
		}
	}
	return rows, err
}

// maxSplits bounds the places at which Lookup parts a name.
const maxSplits = 64

// Lookup lists the rows that a name stands for: PART, else MAKER/PART, else
// MAKER PART. Parts and makers may themselves hold slashes and blanks.
func (c *Catalogue) Lookup(name string) ([]int, error) {
	rows, err := c.Find("", name)
	if err != nil || len(rows) > 0 {
		return rows, err
	}
	for _, separator := range []byte("/ ") {
		splits := 0
		for i := 0; i < len(name) && splits < maxSplits; i++ {
			if name[i] != separator {
				continue
			}
			splits++
			if catalog.FoldKey(name[:i]) == "" {
				continue // no maker: any would do
			}
			if rows, err := c.Find(name[:i], name[i+1:]); err != nil || len(rows) > 0 {
				return rows, err
			}
		}
	}
	return nil, nil
}
