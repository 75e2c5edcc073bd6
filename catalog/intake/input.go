package intake

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"lowsone/catalog/tabular"
)

// input is the file to import, open for reading at any place, twice over.
type input struct {
	io.ReaderAt
	size  int64
	name  string // for messages
	path  string // of the file itself, absolute; empty for a pipe
	info  os.FileInfo
	close func() error
}

// openInput opens the file, or copies what cannot be read twice to a temporary
// file.
func openInput(ctx context.Context, o *Options) (*input, error) {
	if o.File == "-" {
		if o.Stdin == nil {
			return nil, errors.New("no standard input to read")
		}
		return spool(ctx, o.Stdin, "standard input")
	}
	f, err := os.Open(o.File)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err == nil && info.IsDir() {
		err = fmt.Errorf("%s is a folder, not a CSV file", o.File)
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	if !info.Mode().IsRegular() {
		in, err := spool(ctx, f, o.File)
		return in, errors.Join(err, f.Close())
	}
	path, err := filepath.Abs(o.File)
	if err != nil {
		path = o.File
	}
	return &input{ReaderAt: f, size: info.Size(), name: o.File, path: path, info: info, close: f.Close}, nil
}

func spool(ctx context.Context, r io.Reader, name string) (*input, error) {
	s, err := tabular.Spool(ctx, r, os.TempDir())
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return &input{ReaderAt: s, size: s.Size(), name: name, close: s.Close}, nil
}

// sourceName is the name the rows are kept under, but for that of a sheet.
func (o *Options) sourceName() string {
	switch {
	case strings.TrimSpace(o.Source) != "":
		return strings.TrimSpace(o.Source)
	case o.File == "-":
		return "stdin"
	}
	return filepath.Base(o.File)
}
