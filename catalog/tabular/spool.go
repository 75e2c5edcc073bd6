package tabular

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
)

// Spooled is a temporary copy of what cannot be read twice, such as a pipe.
type Spooled struct {
	file   *os.File
	size   int64
	remove func() error
}

// Spool copies r to a temporary file in the folder dir, which must exist. Close
// removes it.
func Spool(ctx context.Context, r io.Reader, dir string) (*Spooled, error) {
	file, remove, err := Temporary(dir, "spool-*")
	if err != nil {
		return nil, fmt.Errorf("making a temporary file: %w", err)
	}
	s := &Spooled{file: file, remove: remove}
	s.size, err = io.Copy(file, &patientReader{ctx, r})
	if err != nil {
		return nil, errors.Join(fmt.Errorf("copying the input to a temporary file: %w", err), s.Close())
	}
	return s, nil
}

// ReadAt reads the copy.
func (s *Spooled) ReadAt(p []byte, off int64) (int, error) { return s.file.ReadAt(p, off) }

// Size is the number of bytes copied.
func (s *Spooled) Size() int64 { return s.size }

// Close removes the copy.
func (s *Spooled) Close() error { return errors.Join(s.file.Close(), s.remove()) }

// patientReader reads until its context ends.
type patientReader struct {
	ctx context.Context
	r   io.Reader
}

func (p *patientReader) Read(b []byte) (int, error) {
	if err := p.ctx.Err(); err != nil {
		return 0, err
	}
	return p.r.Read(b)
}
