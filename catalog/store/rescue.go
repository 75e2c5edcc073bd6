package store

import (
	"context"
	"errors"
	"path/filepath"
	"slices"
	"sync"

	"lowsone/catalog"
)

// rescue finds records that a generation no longer gives: in its own blob file
// wherever they still stand whole, else in the generation before, where a source
// has not been imported anew since. It is opened when the first is missed, and is
// safe for several goroutines.
type rescue struct {
	of     *Catalogue
	once   sync.Once
	sifted *sifted
	before *Catalogue // the newest generation before that opens; nil where there is none

	mu   sync.Mutex
	blob []byte // of the chunk asked for last, as the pages lead to it
	at   int    // that chunk, from 1
}

// block gives the fans of a block; nil where no whole copy of it is left.
func (r *rescue) block(ctx context.Context, chunk, n int) []*catalog.Fan {
	r.once.Do(func() { r.open(ctx) })
	rows := r.of.chunks.rows(chunk)
	for _, blob := range [][]byte{r.ledTo(chunk), r.siftedBlob(chunk)} {
		if fans := r.of.schema.savedFans(rowsPlace(chunk), blob, n, rows); fans != nil {
			return r.of.named(fans, chunk)
		}
	}
	return r.fromBefore(chunk, n)
}

func (r *rescue) open(ctx context.Context) {
	// What cannot be opened gives nothing; how much is lost is counted elsewhere.
	r.sifted, _ = sift(ctx, filepath.Join(r.of.folder, blobFile), r.of.chunks)
	r.before, _ = newestOpening(r.of.dir, r.of.generation)
}

// ledTo gives the records of a chunk as the pages of the file lead to them.
func (r *rescue) ledTo(chunk int) []byte {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.at != chunk+1 {
		r.blob, r.at = nil, chunk+1
		_ = r.of.blobs.read(func(get getter) error {
			blob, err := get(rowsPlace(chunk))
			r.blob = slices.Clone(blob)
			return err
		})
	}
	return r.blob
}

func (r *rescue) siftedBlob(chunk int) []byte {
	if r.sifted == nil {
		return nil
	}
	return r.sifted.blob(chunk)
}

// fromBefore takes a block from the generation before, if that holds the same
// records of the source.
func (r *rescue) fromBefore(chunk, n int) []*catalog.Fan {
	if r.before == nil {
		return nil
	}
	source := r.of.sourceOf(r.of.chunks.first(chunk))
	here, there := r.of.manifest.source(source), r.before.manifest.source(source)
	if there == nil || !here.same(there) {
		return nil
	}
	begin, _ := r.of.manifest.chunkSpan(source)
	other, _ := r.before.manifest.chunkSpan(source)
	fans, err := r.before.readBlock(other+chunk-begin, n, -1)
	if err != nil {
		return nil
	}
	return fans
}

func (r *rescue) close() error {
	var errs []error
	if r.sifted != nil {
		errs = append(errs, r.sifted.close())
	}
	if r.before != nil {
		errs = append(errs, r.before.Close())
	}
	return errors.Join(errs...)
}

// source gives the source of a name; nil where there is none.
func (m *manifest) source(name string) *storedSource {
	i := slices.IndexFunc(m.Sources, func(s storedSource) bool { return s.Name == name })
	if i < 0 {
		return nil
	}
	return &m.Sources[i]
}

// same says whether two generations hold the same records of a source, in the
// same chunks.
func (s *storedSource) same(t *storedSource) bool {
	return s.Name == t.Name && s.CRC == t.CRC && s.CRC != 0 && slices.Equal(s.Chunks, t.Chunks)
}

// openWreck opens a generation that Open refuses, for its records alone: they
// are read with what is left of its blob file, and of the generation before.
// Errors: *DamagedError where not even what it held can be found out,
// *NewerError, *OlderError, those of reading.
func openWreck(ctx context.Context, dir string, n int, damage *DamagedError) (*Catalogue, error) {
	c := &Catalogue{dir: dir, generation: n, folder: filepath.Join(dir, generationName(n)), release: func() error { return nil }}
	path := filepath.Join(c.folder, blobFile)
	c.blobs = &blobReader{path: path, unread: damage}
	m, err := readManifest(filepath.Join(c.folder, manifestFile))
	switch {
	case unlessDamage(err) != nil:
		return nil, err
	case err != nil: // without the manifest its pages cannot be trusted
		if m, err = siftAbout(ctx, path); err != nil {
			return nil, err
		}
	default:
		if blobs, err := openBlobs(path, m.Branches); err == nil {
			c.blobs = blobs
		}
	}
	c.manifest = m
	if c.schema, err = schemaOf(c.manifest.Fields); err != nil {
		return nil, &NewerError{path, err.Error()}
	}
	c.chunks = chunksOf(c.manifest.Sources)
	c.rescue = &rescue{of: c}
	return c, nil
}
