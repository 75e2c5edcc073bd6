package index

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"github.com/blevesearch/bleve/v2/index/scorch"
	bleve "github.com/blevesearch/bleve_index_api"
)

// shard is one shard open for reading. It is safe for several goroutines.
type shard struct {
	engine    bleve.Index
	reader    bleve.IndexReader
	documents uint64
}

func openShard(dir string) (*shard, error) {
	// The engine would try to create what is missing.
	if _, err := os.Stat(filepath.Join(dir, "root.bolt")); err != nil {
		return nil, err
	}
	// bolt_timeout must be a text; without one a lock held elsewhere blocks for ever.
	engine, err := scorch.NewScorch(scorch.Name, map[string]any{
		"path": dir, "read_only": true, "bolt_timeout": "1s",
	}, nil)
	if err != nil {
		return nil, err
	}
	if err := engine.Open(); err != nil {
		return nil, err
	}
	s := &shard{engine: engine}
	if s.reader, err = engine.Reader(); err == nil {
		s.documents, err = s.reader.DocCount()
	}
	if err != nil {
		_ = s.close()
		return nil, err
	}
	return s, nil
}

func (s *shard) close() error {
	if s.reader != nil {
		if err := s.reader.Close(); err != nil {
			return err
		}
	}
	return s.engine.Close()
}

// collector collects the texts of one shard that hold a word.
type collector struct {
	*shard
	ctx  context.Context
	size int
	set  rowSet // nil until there is one
	// known are the numbers of texts by document, 0 for those not asked for yet:
	// the engine takes a microsecond for each. Nil where none are kept.
	known []uint32
}

func (c *collector) collect(q wordQuestion) error {
	switch q.how {
	case asBeginning:
		words, err := c.reader.FieldDictPrefix(wordField, []byte(q.word))
		if err != nil {
			return err
		}
		return c.dictionary(words)
	case asTypo:
		reader, ok := c.reader.(bleve.IndexReaderFuzzy)
		if !ok {
			return fmt.Errorf("index reader %T finds no near words", c.reader)
		}
		// One error: a character more, less or other, or two exchanged.
		words, _, err := reader.FieldDictFuzzyAutomaton(wordField, q.word, 1, "")
		if err != nil {
			return err
		}
		return c.dictionary(words)
	}
	return c.postings(q.word)
}

// dictionary adds the texts of every word that words gives.
func (c *collector) dictionary(words bleve.FieldDict) error {
	defer words.Close()
	for {
		entry, err := words.Next()
		if err != nil || entry == nil {
			return err
		}
		if err := c.postings(entry.Term); err != nil {
			return err
		}
	}
}

// postings adds the texts that hold a word.
func (c *collector) postings(word string) error {
	if err := c.ctx.Err(); err != nil {
		return err
	}
	postings, err := c.reader.TermFieldReader(c.ctx, []byte(word), wordField, false, false, false)
	if err != nil {
		return err
	}
	defer postings.Close()
	var doc bleve.TermFieldDoc
	for {
		found, err := postings.Next(&doc)
		if err != nil || found == nil {
			return err
		}
		text, err := c.text(found.ID)
		if err != nil {
			return err
		}
		if c.set == nil {
			c.set = newRowSet(c.size)
		}
		c.set.add(text)
	}
}

// text gives the number of the text that a document is.
func (c *collector) text(doc bleve.IndexInternalID) (int, error) {
	n := doc.Value()
	if n < uint64(len(c.known)) && c.known[n] > 0 {
		return int(c.known[n]), nil
	}
	id, err := c.reader.ExternalID(doc)
	if err != nil {
		return 0, err
	}
	text, ok := textOf(id)
	if !ok || text == 0 || int(text) >= c.size {
		return 0, fmt.Errorf("a document has the id %q", id)
	}
	if n < uint64(len(c.known)) {
		c.known[n] = text
	}
	return int(text), nil
}
