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

// lookup collects documents by terms, for one search. After the first error it
// collects nothing; the error stands in err.
type lookup struct {
	*shard
	ctx context.Context
	err error
}

func (l *lookup) set() rowSet { return newRowSet(l.documents) }

// addTerm adds the documents that hold a term.
func (l *lookup) addTerm(to rowSet, field, term string) {
	if l.err == nil {
		l.err = l.postings(to, field, term)
	}
}

func (l *lookup) postings(to rowSet, field, term string) error {
	if err := l.ctx.Err(); err != nil {
		return err
	}
	postings, err := l.reader.TermFieldReader(l.ctx, []byte(term), field, false, false, false)
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
		n := found.ID.Value()
		if n >= l.documents {
			return fmt.Errorf("document %d of %d", n, l.documents)
		}
		to.add(n)
	}
}

// addPrefix adds the documents that hold a term beginning so.
func (l *lookup) addPrefix(to rowSet, field, prefix string) {
	if l.err != nil {
		return
	}
	terms, err := l.reader.FieldDictPrefix(field, []byte(prefix))
	if err == nil {
		err = l.dictionary(to, field, terms)
	}
	l.err = err
}

// addNear adds the documents that hold a term one typing error away: a
// character more, less or other, or two exchanged.
func (l *lookup) addNear(to rowSet, field, term string) {
	if l.err != nil {
		return
	}
	reader, ok := l.reader.(bleve.IndexReaderFuzzy)
	if !ok {
		l.err = fmt.Errorf("index reader %T finds no near words", l.reader)
		return
	}
	terms, _, err := reader.FieldDictFuzzyAutomaton(field, term, 1, "")
	if err == nil {
		err = l.dictionary(to, field, terms)
	}
	l.err = err
}

// dictionary adds the documents of every term that terms gives.
func (l *lookup) dictionary(to rowSet, field string, terms bleve.FieldDict) error {
	defer terms.Close()
	for {
		entry, err := terms.Next()
		if err != nil || entry == nil {
			return err
		}
		if err := l.postings(to, field, entry.Term); err != nil {
			return err
		}
	}
}

// row gives the row number of a document.
func (l *lookup) row(doc uint64) (int, error) {
	id, err := l.reader.ExternalID(bleve.NewIndexInternalID(nil, doc))
	if err != nil {
		return 0, err
	}
	row, ok := rowOf(id)
	if !ok {
		return 0, fmt.Errorf("document %d has the id %q", doc, id)
	}
	return int(row), nil
}
