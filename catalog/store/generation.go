package store

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"lowsone/catalog"
	"lowsone/catalog/index"
	"lowsone/catalog/quantity"
)

// generation writes the files of one generation, row by row. Nothing in it
// grows with the rows but the table of parts, 16 bytes each.
type generation struct {
	folder   string
	manifest manifest
	schema   schema
	blobs    *blobWriter
	words    *index.Builder
	block    *blockWriter
	columns  *catalog.ColumnsBuilder
	parts    []partEntry
}

// rowsPerShard is from where on another shard of the word index pays.
const rowsPerShard = 5000

// maxShards bounds what a search has to open.
const maxShards = 4

// newGeneration begins a generation in an existing folder, for about so many
// rows.
func newGeneration(folder string, rows int) (*generation, error) {
	g := &generation{folder: folder, schema: currentSchema(), block: newBlockWriter(), columns: &catalog.ColumnsBuilder{}}
	g.manifest = manifest{Format: formatVersion, Fields: g.schema.stored(), Missing: make([]int, len(g.schema)), Sources: []storedSource{}}
	shards := min(1+rows/rowsPerShard, runtime.GOMAXPROCS(0), maxShards)
	var err error
	if g.words, err = index.NewBuilder(filepath.Join(folder, wordsFolder), shards); err != nil {
		return nil, err
	}
	if g.blobs, err = createBlobs(filepath.Join(folder, blobFile)); err != nil {
		g.words.Abort()
		return nil, fmt.Errorf("begin records: %w", err)
	}
	return g, nil
}

// add writes the next row. The record must be in the current schema and is not
// kept.
func (g *generation) add(record []byte, f *catalog.Fan) error {
	row := g.manifest.Rows
	g.manifest.Rows++
	g.words.Add(row, wordsOf(f))
	g.parts = append(g.parts, partEntry{partHash(catalog.FoldKey(f.Part)), uint32(row)})
	for i, d := range g.schema {
		if _, origin := d.Get(f); origin == quantity.Unknown {
			g.manifest.Missing[i]++
		}
	}
	g.block.add(record)
	g.columns.Append(f)
	if g.block.rows == blockRows {
		if err := g.putBlock(row / blockRows); err != nil {
			return err
		}
	}
	if g.manifest.Rows%chunkRows == 0 {
		return g.putColumns(row / chunkRows)
	}
	return nil
}

func (g *generation) putBlock(n int) error {
	block, err := g.block.take()
	if err != nil {
		return err
	}
	return g.blobs.put(rowsPlace(n), block)
}

func (g *generation) putColumns(chunk int) error {
	columns := g.columns.Columns()
	g.columns = &catalog.ColumnsBuilder{}
	for i, d := range g.schema {
		if !d.Columned() {
			continue
		}
		if err := g.blobs.put(columnPlace(chunk, i), encodeColumn(d, columns)); err != nil {
			return err
		}
	}
	return nil
}

func encodeColumn(d *catalog.Field, c *catalog.Columns) []byte {
	switch {
	case d.Numeric():
		return encodeNumbers(c.Numbers[d.ID])
	case d.Form == catalog.Choice:
		return encodeCodes(c.Codes[d.ID])
	case d.Form == catalog.Points:
		return encodeCurves(c)
	case d.Form == catalog.Bands:
		return encodeBands(c)
	}
	return encodeTexts(c.Texts[d.ID])
}

// source says that the rows added since the last call are those of a source. A
// source without rows is none.
func (g *generation) source(s storedSource) {
	s.Rows = g.manifest.Rows
	for _, before := range g.manifest.Sources {
		s.Rows -= before.Rows
	}
	if s.Rows > 0 {
		g.manifest.Sources = append(g.manifest.Sources, s)
	}
}

// finish writes what is left and makes all of it durable.
func (g *generation) finish() error {
	rows := g.manifest.Rows
	if g.block.rows > 0 {
		if err := g.putBlock(rows / blockRows); err != nil {
			return err
		}
	}
	if rows%chunkRows > 0 {
		if err := g.putColumns(rows / chunkRows); err != nil {
			return err
		}
	}
	if err := writeParts(g.blobs, g.parts); err != nil {
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
