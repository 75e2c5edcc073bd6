package index

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// texts finds texts by their words, in all shards. What it found it keeps for
// the time of one search.
type texts struct {
	shards []*shard
	ctx    context.Context
	size   int // numbers up to here
	mu     sync.Mutex
	found  map[wordQuestion]rowSet
	known  [][]uint32 // by shard, of each document: the number of its text; 0: not asked for yet
}

// wordQuestion asks for the texts that hold a word: as it stands, as the
// beginning of one, or with one typing error.
type wordQuestion struct {
	word string
	how  howWord
}

type howWord uint8

const (
	asWord howWord = iota
	asBeginning
	asTypo
)

// with gives the texts that hold a word, nil for none.
func (t *texts) with(q wordQuestion) (rowSet, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if set, ok := t.found[q]; ok {
		return set, nil
	}
	if t.known == nil {
		for _, s := range t.shards {
			t.known = append(t.known, make([]uint32, s.documents))
		}
	}
	var set rowSet
	for i, s := range t.shards {
		c := &collector{shard: s, ctx: t.ctx, size: t.size, set: set, known: t.known[i]}
		if err := c.collect(q); err != nil {
			return nil, err
		}
		set = c.set
	}
	t.found[q] = set
	return set, nil
}

func openShards(dir string) (shards []*shard, err error) {
	folders, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	for _, folder := range folders {
		s, err := openShard(filepath.Join(dir, folder.Name()))
		if err != nil {
			return nil, errors.Join(fmt.Errorf("shard %s: %w", folder.Name(), err), closeShards(shards))
		}
		shards = append(shards, s)
	}
	return shards, nil
}

func closeShards(shards []*shard) error {
	var errs []error
	for _, s := range shards {
		errs = append(errs, s.close())
	}
	return errors.Join(errs...)
}
