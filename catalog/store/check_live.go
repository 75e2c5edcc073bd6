package store

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"lowsone/catalog"
)

const (
	meansColumn = "search and rank refuse to answer where they look at it"
	meansWords  = "search by words refuses to answer"
	meansCounts = "no answer changes"
	meansRepair = "; repair makes it anew from the records"
)

// live checks the generation that answers.
func (c *checker) live(ctx context.Context) error {
	n := c.report.Generation
	if n == 0 {
		return nil
	}
	damage, err := c.openLive(ctx, n)
	if err != nil || c.open == nil {
		return err
	}
	c.report.Rows, c.report.Sources = c.open.Rows(), c.open.Info().Sources
	if len(c.open.manifest.Files) > 0 { // the blob file's own word says nothing of them
		if err := c.files(ctx, c.open.folder, c.open.manifest, func(path, reason string) { c.bad[path] = reason }); err != nil {
			return err
		}
	}
	content := c.content
	if damage != nil {
		content = c.countLeft
	} else {
		c.open.rescue = &rescue{of: c.open}
	}
	if err := content(ctx); err != nil {
		return err
	}
	c.rest()
	return nil
}

// openLive opens the live generation, or what is left of it. It gives what keeps
// it from opening.
func (c *checker) openLive(ctx context.Context, n int) (damage *DamagedError, err error) {
	c.open, err = openGeneration(c.dir, n)
	folder := filepath.Join(c.dir, generationName(n))
	switch {
	case err == errGone:
		if now, err := live(c.dir); err == nil && now != n {
			return nil, errGone
		}
		damage = &DamagedError{folder, "it is missing"}
		if finished(c.dir, n) || len(c.leftOf(folder)) > 0 {
			damage = &DamagedError{filepath.Join(folder, manifestFile), "it is missing"}
		}
	case errors.As(err, &damage):
	case err != nil:
		return nil, err
	default:
		return nil, nil
	}
	c.open, err = openWreck(ctx, c.dir, n, damage)
	if unlessDamage(err) != nil {
		return nil, err
	}
	means := "nothing is answered"
	if err != nil {
		c.open, c.report.Gone = nil, true
		means += ", and nothing is left of what it held; repair takes the catalogue as it was before the last import"
	}
	c.found(damage.Path, damage.Reason, means)
	return damage, nil
}

// leftOf lists the files of a generation.
func (c *checker) leftOf(folder string) []string {
	list, _ := filepath.Glob(filepath.Join(folder, "*"))
	return list
}

// countLeft counts what can be rescued of a generation that does not open.
func (c *checker) countLeft(ctx context.Context) error {
	for chunk := range c.open.chunks.len() {
		source := c.open.sourceOf(c.open.chunks.first(chunk))
		err := c.open.blocks(ctx, chunk, func(fans []*catalog.Fan, rows int, damage error) error {
			c.lose(source, rows, damage != nil)
			return unlessDamage(damage)
		})
		if err != nil {
			return err
		}
		c.tell(c.open.chunks.first(chunk + 1))
	}
	return nil
}

func (c *checker) tell(rows int) {
	if c.progress != nil {
		c.progress(Progress{rows, c.open.Rows()})
	}
}

// rest names the files that do not stand up to their checksums though nothing
// that is read of them was found to be wrong.
func (c *checker) rest() {
	words := filepath.Join(c.open.folder, wordsFolder) + string(filepath.Separator)
	for _, f := range append(c.open.manifest.Files, storedFile{Name: manifestFile}) {
		path := filepath.Join(c.open.folder, filepath.FromSlash(f.Name))
		reason, ok := c.bad[path]
		switch {
		case !ok || c.known(path):
		case strings.HasPrefix(path, words):
			c.found(path, reason, meansWords+meansRepair)
		default:
			c.found(path, reason, "where nothing is read from: all answers are right; repair writes it anew")
		}
	}
}

// known says whether damage of a file was found.
func (c *checker) known(path string) bool {
	for _, d := range c.report.Damage {
		if d.Path == path {
			return true
		}
	}
	return false
}

// fans gives a number of fans of a source.
func fansOf(rows int, source string) string {
	if rows == 1 {
		return fmt.Sprintf("1 fan of %q", source)
	}
	return fmt.Sprintf("%d fans of %q", rows, source)
}
