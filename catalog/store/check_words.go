package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"lowsone/catalog"
)

// words holds the word index against the texts of the columns: each must be
// found by its words and by no others.
func (t *contentCheck) words() error {
	folder := filepath.Join(t.open.folder, wordsFolder)
	for path := range t.bad {
		if strings.HasPrefix(path, folder) {
			return nil // its content would only repeat it
		}
	}
	t.open.wordsOnce.Do(func() { t.open.words, t.open.wordsErr = t.open.openWords() })
	sums, err := []uint64(nil), t.open.wordsErr
	if err == nil {
		sums, err = t.open.words.TextSums(t.ctx)
		err = t.open.wordsDamage(err)
	}
	var damage *DamagedError
	switch {
	case errors.As(err, &damage):
		t.found(damage.Path, damage.Reason, meansWords+meansRepair)
		return nil
	case err != nil:
		return err
	}
	wrong := 0
	for n, sum := range sums {
		if t.seen[n] && t.texts[n] != sum {
			wrong++
		}
	}
	if wrong > 0 {
		t.found(folder, fmt.Sprintf("%d of %d texts do not stand under their words", wrong, t.open.manifest.Texts), "search by words finds too few or too many"+meansRepair)
	}
	return nil
}

// expectParts adds up what should stand in the table of parts.
func (t *contentCheck) expectParts(c *chunk, first int) error {
	piece, ok := c.pieces[pieceID(t.open.schema.number(catalog.FieldPart))]
	if !ok {
		return nil // has been noted
	}
	var list texts
	column := cursor{b: piece}
	column.texts(c.rows, &list)
	parts := catalog.Strings{Data: list.data.String(), End: list.end}
	if err := column.done(); err != nil {
		return err
	}
	for i := range c.rows {
		t.entries += partEntry{partHash(catalog.FoldKey(parts.At(i))), uint32(first + i)}.sum()
	}
	return nil
}

// sum stands for an entry in a sum over all.
func (e partEntry) sum() uint64 {
	v := (e.hash ^ uint64(e.row)*0x9e3779b97f4a7c15) * 0xbf58476d1ce4e5b9
	v = (v ^ v>>31) * 0x94d049bb133111eb
	return v ^ v>>29
}

// parts checks that the table of parts is in order and holds every row under its
// part.
func (t *contentCheck) parts() {
	err := t.open.blobs.read(func(get getter) error {
		fences, err := get(fencesPlace)
		if err != nil {
			return err
		}
		sum, rows, before := uint64(0), 0, partEntry{}
		for i := range len(fences) / 8 {
			b, err := get(partsPlace(i))
			if err != nil {
				return err
			}
			for j := range len(b) / partBytes {
				e := entryAt(b, j)
				if j == 0 && e.hash != binary.LittleEndian.Uint64(fences[8*i:]) || e.hash < before.hash || e.hash == before.hash && rows > 0 && e.row <= before.row {
					return &DamagedError{t.open.blobs.path, "the table of parts: it is not in order"}
				}
				sum, rows, before = sum+e.sum(), rows+1, e
			}
		}
		if !t.halves && (rows != t.open.Rows() || sum != t.entries) {
			return &DamagedError{t.open.blobs.path, "the table of parts: it does not agree with the columns"}
		}
		return nil
	})
	var damage *DamagedError
	if errors.As(err, &damage) {
		t.found(damage.Path, damage.Reason, "show and --replace refuse to answer"+meansRepair)
	}
}
