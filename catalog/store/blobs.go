package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"runtime/debug"
	"syscall"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// Everything but words stands as blobs in one bbolt file: the records of a
// chunk, the columns of a group of chunks, and the table of parts. A blob is
// four bytes of CRC-32C over its bucket, its key and its content, then the
// content: a changed byte is found, and so is a blob in the wrong place.
//
// The file is written once and then only read. Values stand in the memory map
// of the file, so that a column is read straight out of it.

// place says where a blob stands.
type place struct {
	bucket string
	key    string
}

const (
	bucketRows    = "rows"    // chunk
	bucketColumns = "columns" // group of chunks, piece
	bucketParts   = "parts"   // chunk of the table; fences
	bucketAbout   = "about"   // manifest
)

func rowsPlace(chunk int) place { return place{bucketRows, number(chunk)} }

// columnPlace puts the pieces of one group beside each other: the file grows at
// its end only.
func columnPlace(group int, piece pieceID) place {
	return place{bucketColumns, number(group) + string([]byte{byte(piece)})}
}

func partsPlace(chunk int) place { return place{bucketParts, number(chunk)} }

var fencesPlace = place{bucketParts, "fences"}

// String says to people what stands there.
func (p place) String() string {
	if p.bucket == bucketAbout {
		return "the copy of what the catalogue holds"
	}
	if len(p.key) < 4 || p.bucket == bucketParts {
		return "the table of parts"
	}
	n := int(binary.BigEndian.Uint32([]byte(p.key)))
	if p.bucket == bucketRows {
		return fmt.Sprintf("the records of chunk %d", n)
	}
	return fmt.Sprintf("column number %d of chunks from %d to %d", p.key[4], n*groupChunks, (n+1)*groupChunks-1)
}

func number(n int) string { return string(binary.BigEndian.AppendUint32(nil, uint32(n))) }

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func (p place) crc(content []byte) uint32 {
	crc := crc32.Update(0, castagnoli, []byte(p.bucket))
	crc = crc32.Update(crc, castagnoli, []byte(p.key))
	return crc32.Update(crc, castagnoli, content)
}

// flushBytes is how much is collected before it goes to the file.
const flushBytes = 4 << 20

// blobWriter writes a blob file. Within a bucket keys must rise.
type blobWriter struct {
	db      *bbolt.DB
	pending map[string][]blob // by bucket
	bytes   int
}

type blob struct {
	key   string
	value []byte
}

func createBlobs(path string) (*blobWriter, error) {
	// Nothing is synced until the end: until the swap the file counts for nothing.
	// Free pages are kept in an array, so that the same rows give the same file.
	db, err := bbolt.Open(path, 0o644, &bbolt.Options{
		NoSync: true, NoGrowSync: true, NoFreelistSync: true, NoStatistics: true,
		FreelistType: bbolt.FreelistArrayType, Timeout: time.Second,
	})
	if err != nil {
		return nil, err
	}
	return &blobWriter{db: db, pending: map[string][]blob{}}, nil
}

// put writes content.
func (w *blobWriter) put(p place, content []byte) error {
	value := binary.LittleEndian.AppendUint32(make([]byte, 0, 4+len(content)), p.crc(content))
	return w.putSealed(p, append(value, content...))
}

// putSealed writes a value that has its own checksums. It takes the value over.
func (w *blobWriter) putSealed(p place, value []byte) error {
	w.pending[p.bucket] = append(w.pending[p.bucket], blob{p.key, value})
	if w.bytes += len(value); w.bytes < flushBytes {
		return nil
	}
	return w.flush()
}

// flush writes each bucket by itself: bbolt writes several in random order, and
// the same rows shall give the same file.
func (w *blobWriter) flush() error {
	for _, bucket := range []string{bucketRows, bucketColumns, bucketParts, bucketAbout} {
		if err := w.flushBucket(bucket); err != nil {
			return err
		}
	}
	w.bytes = 0
	return nil
}

func (w *blobWriter) flushBucket(name string) error {
	pending := w.pending[name]
	w.pending[name] = nil
	if len(pending) == 0 {
		return nil
	}
	return w.db.Update(func(tx *bbolt.Tx) error {
		bucket, err := tx.CreateBucketIfNotExists([]byte(name))
		if err != nil {
			return err
		}
		bucket.FillPercent = 1 // keys rise: no page is filled later
		for _, b := range pending {
			if err := bucket.Put([]byte(b.key), b.value); err != nil {
				return err
			}
		}
		return nil
	})
}

// close writes what is pending and gives the branches of the file.
func (w *blobWriter) close() (branches, error) {
	err := w.flush()
	var b branches
	if err == nil {
		b, err = branchesOf(w.db)
	}
	if err2 := w.db.Close(); err == nil {
		err = err2
	}
	return b, err
}

// blobReader reads a blob file. It is safe for several goroutines.
type blobReader struct {
	db     *bbolt.DB // nil: the file cannot be used
	path   string
	unread *DamagedError // why not
}

func openBlobs(path string, b branches) (*blobReader, error) {
	reason, err := b.check(path)
	if err != nil {
		return nil, err
	}
	if reason != "" {
		return nil, &DamagedError{path, reason}
	}
	r := &blobReader{path: path}
	err = r.guard(func() (err error) {
		r.db, err = bbolt.Open(path, 0, &bbolt.Options{ReadOnly: true, Timeout: time.Second, NoStatistics: true})
		var system syscall.Errno
		if err == nil || errors.As(err, &system) || errors.Is(err, bolterrors.ErrTimeout) {
			return err
		}
		return &DamagedError{path, err.Error()}
	})
	return r, err
}

func (r *blobReader) close() error {
	if r.db == nil {
		return nil
	}
	return r.db.Close()
}

// getter gives the content of a blob, as a view that holds until its read ends.
// Records have their own checksums and come unchecked.
type getter func(place) ([]byte, error)

// read runs fn over the blobs. What bbolt or the memory map makes of a damaged
// file, a panic or a fault, comes back as a *DamagedError.
func (r *blobReader) read(fn func(get getter) error) error {
	if r.db == nil {
		return r.unread
	}
	return r.guard(func() error {
		return r.db.View(func(tx *bbolt.Tx) error {
			return fn(func(p place) ([]byte, error) { return r.get(tx, p) })
		})
	})
}

func (r *blobReader) get(tx *bbolt.Tx, p place) ([]byte, error) {
	var value []byte
	if bucket := tx.Bucket([]byte(p.bucket)); bucket != nil {
		value = bucket.Get([]byte(p.key))
	}
	if len(value) < 4 {
		return nil, &DamagedError{r.path, fmt.Sprintf("%v: nothing stands there", p)}
	}
	if p.bucket == bucketRows {
		return value, nil
	}
	content := value[4:]
	if binary.LittleEndian.Uint32(value) != p.crc(content) {
		return nil, &DamagedError{r.path, fmt.Sprintf("%v: the content has changed", p)}
	}
	return content, nil
}

func (r *blobReader) guard(fn func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			err = &DamagedError{r.path, fmt.Sprintf("its pages cannot be followed: %v", p)}
		}
	}()
	return fn()
}
