package store

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"lowsone/catalog"
)

// Importing is the way back from damage. So an import keeps what can still be
// read of the other sources, and counts what cannot.

// openLive opens the catalogue that the import replaces. Where CURRENT is
// damaged, that is the newest finished generation. Where the live generation
// does not open, what is left of it serves; where nothing is, the generation
// before does.
func (b *Builder) openLive(ctx context.Context) error {
	n, damage, err := answering(b.dir)
	switch {
	case errors.Is(err, ErrNone):
		return nil
	case err != nil:
		return err
	}
	b.damage = damage
	b.live, err = openGeneration(b.dir, n)
	var older *OlderError
	switch {
	case errors.As(err, &older): // no better than damaged
		damage = &DamagedError{older.Path, older.Reason}
	case err == errGone:
		damage = &DamagedError{filepath.Join(b.dir, generationName(n)), "it is missing"}
	case errors.As(err, &damage):
	case err != nil:
		return err
	default:
		b.live.rescue = &rescue{of: b.live}
		return nil
	}
	if b.damage == nil {
		b.damage = damage
	}
	if err = nil; older == nil {
		b.live, err = b.openLeft(ctx, n, damage)
	}
	if b.live == nil {
		b.lost = b.lostWith(damage)
	}
	return unlessDamage(err)
}

// openLeft opens what is left of a generation, else the one before it; nil where
// nothing is.
func (b *Builder) openLeft(ctx context.Context, n int, damage *DamagedError) (*Catalogue, error) {
	c, err := openWreck(ctx, b.dir, n, damage)
	if err == nil || unlessDamage(err) != nil {
		return c, err
	}
	if c, err = newestOpening(b.dir, n); c == nil {
		return nil, err
	}
	c.rescue = &rescue{of: c}
	b.before = true
	return c, nil
}

// lostWith names the other sources of a live generation that does not open, if
// its manifest still does.
func (b *Builder) lostWith(damage *DamagedError) (lost []Loss) {
	m, _ := readManifest(filepath.Join(filepath.Dir(damage.Path), manifestFile))
	if m == nil {
		return nil
	}
	for _, s := range m.Sources {
		if s.Name != b.im.Source {
			lost = append(lost, Loss{s.Name, s.Rows})
		}
	}
	return lost
}

// keep copies the rows of another source.
func (b *Builder) keep(w *chunkWriter, s storedSource) error {
	same := slices.Equal(b.live.schema, b.ledger.schema)
	begin, end := b.live.manifest.chunkSpan(s.Name)
	r := chunkReader{catalogue: b.live}
	lost := 0
	for n := begin; n < end; n++ {
		var c *chunk
		damage := errOtherForm
		if same {
			c, damage = r.chunk(n)
		}
		var err error
		if damage == nil {
			err = w.add(c)
		} else if err = b.survive(damage); err == nil {
			err = b.keepFans(w, n, &lost)
		}
		if err != nil {
			return err
		}
	}
	if lost > 0 {
		b.lost = append(b.lost, Loss{s.Name, lost})
	}
	w.generation.endSource(s)
	return nil
}

// errOtherForm says that a chunk cannot be copied as it is.
var errOtherForm = errors.New("other form")

// keepFans copies the rows of a chunk that can still be read, one by one.
func (b *Builder) keepFans(w *chunkWriter, chunk int, lost *int) error {
	var kept []*catalog.Fan
	err := b.live.blocks(w.ctx, chunk, func(fans []*catalog.Fan, rows int, damage error) error {
		if damage != nil {
			*lost += rows
			return b.survive(damage)
		}
		kept = append(kept, fans...)
		return nil
	})
	if err != nil {
		return err
	}
	return w.addFans(kept)
}

// spoilt gives the number of the replaced generation where it is damaged and
// nothing of it was lost: it is no good as the one before. 0: it is kept.
func (b *Builder) spoilt() int {
	if b.live == nil || b.damage == nil || b.before || len(b.lost) > 0 || !strings.HasPrefix(b.damage.Path, b.live.folder) {
		return 0
	}
	return b.live.generation
}

// survive notes damage, and gives what is none.
func (b *Builder) survive(err error) error {
	var damage *DamagedError
	if errors.As(err, &damage) && b.damage == nil {
		b.damage = damage
	}
	if err == errOtherForm {
		return nil
	}
	return unlessDamage(err)
}

// unlessDamage gives err unless it tells of damage, which an import survives.
func unlessDamage(err error) error {
	var damage *DamagedError
	if errors.As(err, &damage) {
		return nil
	}
	return err
}

// chunkWriter adds chunks to a generation and tells how far it is.
type chunkWriter struct {
	ctx        context.Context
	generation *generation
	encoder    *encoder // made when it is needed
	progress   func(Progress)
	total      int
}

func (w *chunkWriter) add(c *chunk) error {
	if err := w.ctx.Err(); err != nil {
		return err
	}
	w.report()
	return w.generation.add(c)
}

// addFans adds a chunk of fans, if there are any.
func (w *chunkWriter) addFans(fans []*catalog.Fan) error {
	if len(fans) == 0 {
		return nil
	}
	if w.encoder == nil {
		w.encoder = newEncoder(w.generation.schema)
	}
	return w.add(w.encoder.encode(fans))
}

func (w *chunkWriter) report() {
	if w.progress != nil {
		w.progress(Progress{w.generation.manifest.Rows, w.total})
	}
}

// chunkReader reads whole chunks and keeps the group it read last.
type chunkReader struct {
	catalogue *Catalogue
	group     int // from 1; 0: none yet
	pieces    map[pieceID][][]byte
}

// chunk reads a chunk, and checks all of it. It holds until the next call.
func (r *chunkReader) chunk(n int) (*chunk, error) {
	if group := n / groupChunks; r.group != group+1 {
		if err := r.open(group); err != nil {
			return nil, err
		}
	}
	c := &chunk{rows: r.catalogue.chunks.rows(n), pieces: map[pieceID][]byte{}}
	for id, pieces := range r.pieces {
		c.pieces[id] = pieces[n%groupChunks]
	}
	err := r.catalogue.blobs.read(func(get getter) error {
		for i := range blocksOf(c.rows) {
			b, err := r.catalogue.block(get, n, i)
			if err != nil {
				return err
			}
			c.blocks = append(c.blocks, bytes.Clone(b))
		}
		return nil
	})
	return c, err
}

func (r *chunkReader) open(group int) error {
	r.group, r.pieces = 0, map[pieceID][][]byte{}
	err := r.catalogue.blobs.read(func(get getter) error {
		for _, id := range pieceIDs(len(r.catalogue.schema)) {
			pieces, err := r.catalogue.groupPieces(get, group, id)
			if err != nil {
				return err
			}
			for i := range pieces {
				pieces[i] = bytes.Clone(pieces[i])
			}
			r.pieces[id] = pieces
		}
		return nil
	})
	if err == nil {
		r.group = group + 1
	}
	return err
}
