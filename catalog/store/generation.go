package store

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io/fs"
	"os"
	"path/filepath"

	"lowsone/catalog"
	"lowsone/catalog/index"
)

// generation writes the files of one generation, chunk by chunk. Nothing in it
// grows with the rows but the table of parts, 16 bytes each.
type generation struct {
	folder   string
	manifest manifest
	schema   schema
	slots    []pieceID
	blobs    *blobWriter
	pieces   *pieceWriter
	words    *index.Builder
	chunks   int
	source   storedSource // that is being written
	parts    []partEntry
}

// newGeneration begins a generation in an existing folder.
func newGeneration(folder string) (*generation, error) {
	g := &generation{folder: folder, schema: currentSchema()}
	g.slots = g.schema.slots()
	number, _ := generationNumber(filepath.Base(folder))
	g.manifest = manifest{Format: formatVersion, Number: number, Fields: g.schema.stored(), Missing: make([]int, len(g.schema)), Sources: []storedSource{}}
	var err error
	if g.words, err = index.NewBuilder(filepath.Join(folder, wordsFolder)); err != nil {
		return nil, err
	}
	if g.blobs, err = createBlobs(filepath.Join(folder, blobFile)); err != nil {
		g.words.Abort()
		return nil, fmt.Errorf("begin records: %w", err)
	}
	g.pieces = newPieceWriter(g.blobs)
	return g, nil
}

// add writes the next chunk, whose fields are those of the schema.
func (g *generation) add(c *chunk) error {
	p := rowsPlace(g.chunks)
	if err := g.blobs.putSealed(p, recordsBlob(p, c.blocks)); err != nil {
		return err
	}
	for _, b := range c.blocks {
		g.source.CRC = crc32.Update(g.source.CRC, castagnoli, b)
	}
	for _, id := range pieceIDs(len(g.schema)) {
		g.pieces.add(id, c.pieces[id])
	}
	texts, err := g.texts(c)
	if err == nil {
		g.pieces.add(pieceTexts, texts)
		err = g.account(c)
	}
	if err != nil {
		return err
	}
	g.chunks++
	g.manifest.Rows += c.rows
	g.source.Rows += c.rows
	g.source.Chunks = append(g.source.Chunks, c.rows)
	return g.pieces.endChunk()
}

// texts has the texts of a chunk indexed, and gives their numbers: for each slot
// those of its entries.
func (g *generation) texts(c *chunk) (numbers []byte, err error) {
	err = c.eachSlot(g.slots, func(slot cursor) error {
		p := slot.coded(c.rows)
		for range p.count {
			text := slot.bytes(slot.count(1))
			numbers = binary.AppendUvarint(numbers, uint64(g.words.Text(text)))
		}
		return slot.done()
	})
	return numbers, err
}

// eachSlot passes the columns of texts that the word index holds: those of
// slots, then the extras.
func (c *chunk) eachSlot(slots []pieceID, pass func(slot cursor) error) error {
	for _, id := range slots {
		if err := pass(cursor{b: c.pieces[id]}); err != nil {
			return err
		}
	}
	extras := cursor{b: c.pieces[pieceExtras]}
	for range extras.count(1) {
		if err := pass(cursor{b: extras.bytes(extras.count(1))}); err != nil {
			return err
		}
	}
	return extras.done()
}

// account enters the rows of a chunk into the table of parts, and counts what
// they lack.
func (g *generation) account(c *chunk) error {
	missing := cursor{b: c.pieces[pieceMissing]}
	for i := range g.manifest.Missing {
		g.manifest.Missing[i] += int(missing.uint())
	}
	if err := missing.done(); err != nil {
		return err
	}
	if c.parts == nil {
		return g.accountColumn(c)
	}
	for i := range c.rows {
		g.parts = append(g.parts, partEntry{binary.LittleEndian.Uint64(c.parts[8*i:]), uint32(g.manifest.Rows + i)})
	}
	return nil
}

// accountColumn enters rows by the column of their parts.
func (g *generation) accountColumn(c *chunk) error {
	var t texts
	column := cursor{b: c.pieces[pieceID(g.schema.number(catalog.FieldPart))]}
	column.texts(c.rows, &t)
	parts := catalog.Strings{Data: t.data.String(), End: t.end}
	for i := range c.rows {
		g.parts = append(g.parts, partEntry{partHash(catalog.FoldKey(parts.At(i))), uint32(g.manifest.Rows + i)})
	}
	return column.done()
}

// endSource says that the chunks added since the last call are those of a
// source. A source without rows is none.
func (g *generation) endSource(s storedSource) {
	s.Rows, s.Chunks, s.CRC = g.source.Rows, g.source.Chunks, g.source.CRC
	if s.Rows > 0 {
		g.manifest.Sources = append(g.manifest.Sources, s)
	}
	g.source = storedSource{}
}

// finish writes what is left and makes all of it durable.
func (g *generation) finish() error {
	if err := g.pieces.flush(); err != nil {
		return err
	}
	if err := writeParts(g.blobs, g.parts); err != nil {
		return err
	}
	about, err := g.manifest.about()
	if err == nil {
		err = g.blobs.put(aboutPlace, about)
	}
	if err != nil {
		return err
	}
	branches, err := g.blobs.close()
	g.blobs = nil
	if err != nil {
		return err
	}
	g.manifest.Branches = branches
	words := g.words
	g.words = nil
	g.manifest.Texts = words.Texts()
	if err := words.Close(); err != nil {
		return err
	}
	return g.seal()
}

// seal makes the files durable and writes the manifest that names them.
func (g *generation) seal() error {
	err := filepath.WalkDir(g.folder, func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir():
			// Readers may be other people than who imports.
			return os.Chmod(path, 0o755)
		}
		return g.sealFile(path)
	})
	if err != nil {
		return err
	}
	content, err := g.manifest.encode()
	if err != nil {
		return err
	}
	if err := writeSynced(filepath.Join(g.folder, manifestFile), content); err != nil {
		return err
	}
	return filepath.WalkDir(g.folder, func(path string, e fs.DirEntry, err error) error {
		if err == nil && e.IsDir() {
			err = syncFolder(path)
		}
		return err
	})
}

func (g *generation) sealFile(path string) error {
	if err := os.Chmod(path, 0o644); err != nil {
		return err
	}
	if err := syncFile(path); err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	crc, err := fileCRC(path)
	if err != nil {
		return err
	}
	name, err := filepath.Rel(g.folder, path)
	if err != nil {
		return err
	}
	g.manifest.Files = append(g.manifest.Files, storedFile{filepath.ToSlash(name), info.Size(), crc})
	return nil
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}

// abort stops writing. The folder is the caller's to remove.
func (g *generation) abort() {
	if g.words != nil {
		g.words.Abort()
	}
	if g.blobs != nil {
		_, _ = g.blobs.close() // the file is about to be removed
	}
}
