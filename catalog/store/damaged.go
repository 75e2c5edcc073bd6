package store

import (
	"errors"
	"os"
	"path/filepath"
)

// Damage says what is wrong with the live generation, as far as opening it and
// the checksums of its files tell; nil where nothing is. An import that brings
// nothing new is committed all the same where something is: it makes the
// generation anew.
func (b *Builder) Damage() *DamagedError {
	if b.damage == nil && b.live != nil {
		err := b.live.damage()
		errors.As(err, &b.damage)
	}
	return b.damage
}

// damage gives a *DamagedError where a file of the generation is not as it was
// written, or CURRENT is gone.
func (c *Catalogue) damage() error {
	path := filepath.Join(c.dir, currentFile)
	if _, err := os.Stat(path); err != nil {
		return &DamagedError{path, err.Error()}
	}
	every := func(string) bool { return true }
	if path, reason := c.manifest.misfit(c.folder, every); path != "" {
		return &DamagedError{path, reason}
	}
	return c.checkFiles(every)
}
