package store

import (
	"context"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"lowsone/catalog/index"
)

// Hit is a row found by words. Higher scores are better; equal scores stand in
// row order.
type Hit struct {
	Row   int
	Score float64
}

// Near says that the row was found only by allowing for a typing error.
func (h Hit) Near() bool { return h.Score <= float64(index.NearPart) }

// Search finds the rows that hold every word of text: first those whose part
// number it is, then those whose part number it begins, then the others. Only
// where there is none, words with one typing error count. A limit of 0 or less
// gives all hits. Errors: *index.TextError, *DamagedError where the word index
// is; everything but words is answered without it.
func (c *Catalogue) Search(ctx context.Context, text string, limit int) ([]Hit, error) {
	c.wordsOnce.Do(func() { c.words, c.wordsErr = c.openWords() })
	if c.wordsErr != nil {
		return nil, c.wordsErr
	}
	found, err := c.words.Search(ctx, text)
	if err != nil {
		return nil, c.wordsDamage(err)
	}
	if limit > 0 && len(found) > limit {
		found = found[:limit]
	}
	hits := make([]Hit, len(found))
	for i, h := range found {
		if err := c.checkRow(h.Row); err != nil {
			return nil, c.wordsDamage(fmt.Errorf("%w: %w", index.ErrDamaged, err))
		}
		hits[i] = Hit{h.Row, float64(h.Match)}
	}
	return hits, nil
}

func (c *Catalogue) openWords() (*index.Index, error) {
	inWords := func(name string) bool { return strings.HasPrefix(name, wordsFolder+"/") }
	if path, reason := c.manifest.misfit(c.folder, inWords); path != "" {
		return nil, &DamagedError{path, reason}
	}
	if err := c.checkFiles(inWords); err != nil {
		return nil, err
	}
	x, err := index.Open(filepath.Join(c.folder, wordsFolder), c.manifest.Texts, wordRows{c})
	return x, c.wordsDamage(err)
}

func (c *Catalogue) wordsDamage(err error) error {
	if errors.Is(err, index.ErrDamaged) {
		return &DamagedError{filepath.Join(c.folder, wordsFolder), err.Error()}
	}
	return err
}

// checkFiles compares files of the generation, all at once, with the checksums
// they had when written. The word index has none of its own.
func (c *Catalogue) checkFiles(ours func(name string) bool) error {
	errs := make([]error, len(c.manifest.Files))
	var wg sync.WaitGroup
	for i, f := range c.manifest.Files {
		if !ours(f.Name) {
			continue
		}
		wg.Go(func() {
			path := filepath.Join(c.folder, filepath.FromSlash(f.Name))
			crc, err := fileCRC(path)
			if err == nil && crc != f.CRC {
				err = &DamagedError{path, "its content has changed"}
			}
			errs[i] = err
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func fileCRC(path string) (uint32, error) {
	f, err := os.Open(path)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	sum := crc32.New(castagnoli)
	_, err = io.CopyBuffer(struct{ io.Writer }{sum}, struct{ io.Reader }{f}, make([]byte, 256<<10))
	return sum.Sum32(), err
}
