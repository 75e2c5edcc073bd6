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

	"lowsone/catalog"
	"lowsone/catalog/index"
)

// Hit is a row found by words. Higher scores are better; equal scores stand in
// row order.
type Hit struct {
	Row   int
	Score float64
}

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
	x, err := index.Open(filepath.Join(c.folder, wordsFolder), c.manifest.Rows)
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

// wordsOf gives what the word index holds of a fan: its names and codes, its
// texts, and as words how it is built and what it runs on.
func wordsOf(f *catalog.Fan) index.Row {
	r := index.Row{Part: f.Part, Texts: []string{f.Maker, frameWords(f), supplyWords(f), f.Connector, f.Bearing, f.Supplier, f.Description}}
	if f.OrderCode != "" {
		r.Codes = []string{f.OrderCode}
	}
	for _, e := range f.Extra {
		r.Texts = append(r.Texts, e.Text)
	}
	return r
}

// frameWords gives "axial 60x60x25 60mm".
func frameWords(f *catalog.Fan) string {
	kind, _ := f.Kind.Get()
	words := []string{kind.String()}
	var sizes []string
	for _, id := range []catalog.FieldID{catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth} {
		if size := catalog.Fields[id].Format(f); size != "" {
			sizes = append(sizes, size)
		}
	}
	words = append(words, strings.Join(sizes, "x"))
	if width := catalog.Fields[catalog.FieldWidth].Format(f); width != "" {
		words = append(words, width+"mm")
	}
	return strings.Join(words, " ")
}

// supplyWords gives "12V DC 12VDC PWM".
func supplyWords(f *catalog.Fan) string {
	supply, _ := f.Supply.Get()
	words := []string{supply.String()}
	if volts := catalog.Fields[catalog.FieldVoltage].Format(f); volts != "" {
		words = append(words, volts+"V", volts+"V"+supply.String())
	}
	if pwm, _ := f.PWM.Get(); pwm {
		words = append(words, "pwm")
	}
	return strings.Join(words, " ")
}
