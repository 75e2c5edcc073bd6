package index

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
)

const (
	batchTexts  = 256     // handed to a shard at a time
	shardTexts  = 8192    // from where on another shard pays
	maxShards   = 4       // bounds what a search has to open
	flushTexts  = 4000    // of a shard, cut into one segment
	mergeAtOnce = 32      // segments merged at a time
	knownTexts  = 1 << 16 // kept to see that a text comes again
	knownBytes  = 8 << 20
)

// Builder builds an index. It is for one goroutine; the work is done by one
// more for each shard.
type Builder struct {
	dir    string
	shards []*shardBuilder
	batch  []entry
	texts  uint32
	known  map[string]uint32
	bytes  int // of the known texts
}

// entry is a text with its number.
type entry struct {
	number uint32
	text   string
}

// NewBuilder begins an index in the folder dir, which it makes.
func NewBuilder(dir string) (*Builder, error) {
	if err := os.Mkdir(dir, 0o755); err != nil {
		return nil, fmt.Errorf("begin word index: %w", err)
	}
	return &Builder{dir: dir, known: map[string]uint32{}}, nil
}

// Text gives the number under which a text is indexed, 0 for an empty one.
// Equal texts have one number, unless so many others came between that it is
// forgotten. Errors show at Close.
func (b *Builder) Text(text []byte) uint32 {
	if len(text) == 0 {
		return 0
	}
	if n, ok := b.known[string(text)]; ok {
		return n
	}
	b.texts++
	b.remember(string(text))
	if len(b.batch) == batchTexts {
		b.send()
	}
	return b.texts
}

func (b *Builder) remember(text string) {
	if len(b.known) == knownTexts || b.bytes > knownBytes {
		clear(b.known)
		b.bytes = 0
	}
	b.known[text] = b.texts
	b.bytes += len(text)
	b.batch = append(b.batch, entry{b.texts, text})
}

// Texts gives the number of texts so far.
func (b *Builder) Texts() int { return int(b.texts) }

// send hands the batch to a shard: to the first at the beginning, then to all in
// turn.
func (b *Builder) send() {
	last := int(b.batch[len(b.batch)-1].number)
	n := 0
	if last > shardTexts {
		n = last / batchTexts % min(maxShards, runtime.GOMAXPROCS(0))
	}
	for len(b.shards) <= n {
		b.shards = append(b.shards, startShard(filepath.Join(b.dir, fmt.Sprintf("%02d", len(b.shards)))))
	}
	b.shards[n].batches <- b.batch
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
