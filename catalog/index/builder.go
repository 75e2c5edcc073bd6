package index

import (
	"fmt"
	"os"
	"path/filepath"
)

const (
	batchRows   = 256  // handed to a shard at a time
	flushRows   = 2000 // of a shard, cut into one segment
	mergeAtOnce = 32   // segments merged at a time
)

// Builder builds an index. It is for one goroutine; the work is done by one
// more for each shard.
type Builder struct {
	shards []*shardBuilder
	batch  []entry
	next   int // shard that takes the next batch
}

type entry struct {
	row uint32
	Row
}

// NewBuilder begins an index in the folder dir, which it makes.
func NewBuilder(dir string, shards int) (*Builder, error) {
	if err := os.Mkdir(dir, 0o755); err != nil {
		return nil, fmt.Errorf("begin word index: %w", err)
	}
	b := &Builder{}
	for i := range shards {
		b.shards = append(b.shards, startShard(filepath.Join(dir, fmt.Sprintf("%02d", i))))
	}
	return b, nil
}

// Add indexes a row under its number. Errors show at Close.
func (b *Builder) Add(row int, r Row) {
	b.batch = append(b.batch, entry{uint32(row), r})
	if len(b.batch) == batchRows {
		b.send()
	}
}

func (b *Builder) send() {
	b.shards[b.next].batches <- b.batch
	b.next = (b.next + 1) % len(b.shards)
	b.batch = nil
}

// Close writes the index.
func (b *Builder) Close() error {
	if len(b.batch) > 0 {
		b.send()
	}
	return b.end()
}

// Abort stops without writing. What stands in the folder is the caller's to
// remove.
func (b *Builder) Abort() {
	for _, s := range b.shards {
		s.abort.Store(true)
	}
	_ = b.end() // what went wrong no longer matters
}

// end waits for the shards and gives the first error of any.
func (b *Builder) end() error {
	for _, s := range b.shards {
		close(s.batches)
	}
	var first error
	for _, s := range b.shards {
		if err := <-s.done; first == nil {
			first = err
		}
	}
	return first
}
