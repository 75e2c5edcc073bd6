package index

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"sync"

	bleve "github.com/blevesearch/bleve_index_api"
)

// TextSum stands for the words under which a text is indexed: a sum over hashes
// of them. Two texts with the same words have one sum; that others have it does
// not happen by accident.
func TextSum(text string) (sum uint64) {
	for word := range newDocument(0, text).fields[1].terms {
		sum += wordSum(word)
	}
	return sum
}

func wordSum(word string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(word))
	v := h.Sum64()
	// The bits are mixed once more: sums of related hashes must not cancel out.
	v = (v ^ v>>30) * 0xbf58476d1ce4e5b9
	v = (v ^ v>>27) * 0x94d049bb133111eb
	return v ^ v>>31
}

// TextSums gives for each text of the index, by its number, the TextSum of the
// words under which it is really found; the number 0 stands for none. Errors: the
// context's; ErrDamaged.
func (x *Index) TextSums(ctx context.Context) ([]uint64, error) {
	sums := make([]uint64, x.texts+1)
	errs := make([]error, len(x.shards))
	var wg sync.WaitGroup
	for i, s := range x.shards { // a text is in one shard
		wg.Go(func() { errs[i] = s.addSums(ctx, sums) })
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err := errors.Join(errs...); err != nil {
		return nil, damaged(err)
	}
	return sums, nil
}

// addSums adds every word of the shard to the sums of the texts that hold it.
func (s *shard) addSums(ctx context.Context, sums []uint64) error {
	words, err := s.reader.FieldDict(wordField)
	if err != nil {
		return err
	}
	defer words.Close()
	a := summer{collector{shard: s, ctx: ctx, size: len(sums)}, make([]int, s.documents), sums}
	for {
		word, err := words.Next()
		if err != nil || word == nil {
			return err
		}
		if err := a.add(word.Term); err != nil {
			return err
		}
	}
}

// summer sums up the words of one shard.
type summer struct {
	collector
	texts []int // by document, once it is known
	sums  []uint64
}

func (a *summer) add(word string) error {
	if err := a.ctx.Err(); err != nil {
		return err
	}
	postings, err := a.reader.TermFieldReader(a.ctx, []byte(word), wordField, false, false, false)
	if err != nil {
		return err
	}
	defer postings.Close()
	sum := wordSum(word)
	var doc bleve.TermFieldDoc
	for {
		found, err := postings.Next(&doc)
		if err != nil || found == nil {
			return err
		}
		n := found.ID.Value()
		if n >= uint64(len(a.texts)) {
			return fmt.Errorf("document %d of %d", n, len(a.texts))
		}
		if a.texts[n] == 0 {
			if a.texts[n], err = a.text(found.ID); err != nil {
				return err
			}
		}
		a.sums[a.texts[n]] += sum
	}
}
