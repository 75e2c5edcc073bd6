package intake

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/text/unicode/norm"

	"lowsone/catalog"
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
	switch {
	case isStream(o.File):
		path = "" // it stands for this once
	case err != nil:
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
	switch given := plainName(o.Source); {
	case given != "":
		return given
	case o.File == "-", isStream(o.File):
		return "stdin"
	}
	return plainName(filepath.Base(o.File))
}

// isStream says whether a path stands for what a shell has open, whose number says
// nothing: <(zcat list.csv.gz) is /dev/fd/63.
func isStream(path string) bool {
	switch dir, _ := filepath.Split(filepath.Clean(path)); dir {
	case "/dev/fd/", "/proc/self/fd/":
		return true
	}
	return path == "/dev/stdin"
}

// plainName makes a name one that can be typed again: on one line, and without
// characters that are not seen.
func plainName(name string) string {
	visible := strings.Map(catalog.Printable, name)
	return strings.TrimSpace(norm.NFC.String(visible))
}

// longestName is the most bytes of a source's name: those of a file and a sheet.
const longestName = 400

// LongNameError says that a source's name is longer than any that helps.
type LongNameError struct{ Bytes int }

// Error gives its length.
func (e *LongNameError) Error() string {
	return fmt.Sprintf("the name of the source has %d bytes: %d are the most", e.Bytes, longestName)
}

// Hint names the mend.
func (e *LongNameError) Hint() string { return "give it a shorter one with --source NAME" }
