package intake

import (
	"encoding/csv"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"unicode"

	"github.com/google/renameio/v2"

	"lowsone/catalog"
	"lowsone/catalog/tabular"
)

// rejectsHeader are the columns of the file for rejected rows. The row is the
// last one, whole, as it stands in the imported file.
var rejectsHeader = []string{"line", "column", "header", "cell", "reason", "hint", "row"}

// rejectsFile is the file for rejected rows while it is written. Rows are
// gathered in a temporary file; the file appears under its name only when all of
// it is there, and only if there are any.
type rejectsFile struct {
	path    string
	given   bool // by the person
	spool   *os.File
	remove  func() error // removes the spool
	csv     *csv.Writer
	pending *renameio.PendingFile
}

// newRejectsFile settles where rejected rows go. The imported file itself is
// refused.
func newRejectsFile(o *Options, source string, in *input) (*rejectsFile, error) {
	r := &rejectsFile{path: o.Rejects, given: o.Rejects != ""}
	if !r.given {
		r.path = rejectsPath(o.Catalog, source)
	}
	if r.given {
		if info, err := os.Stat(filepath.Dir(r.path)); err != nil || !info.IsDir() {
			return nil, fmt.Errorf("rejected rows cannot go to %q: its folder does not exist", r.path)
		}
	}
	if info, err := os.Stat(r.path); err == nil {
		switch {
		case in.info != nil && os.SameFile(info, in.info):
			return nil, fmt.Errorf("rejected rows cannot go to %q, which is the file to import", r.path)
		case info.IsDir():
			return nil, fmt.Errorf("rejected rows cannot go to %q, which is a folder", r.path)
		}
	}
	if info, err := os.Lstat(r.path); err == nil && !info.Mode().IsRegular() {
		// It would be replaced: a link instead of what it leads to, a device for good.
		return nil, fmt.Errorf("rejected rows cannot go to %q, which is a link or no file", r.path)
	}
	if r.given && holdsOther(r.path) {
		return nil, fmt.Errorf("rejected rows cannot go to %q, which holds something else", r.path)
	}
	return r, nil
}

// rejectsPath is where the rejected rows of a source go unless said otherwise.
func rejectsPath(catalog, source string) string {
	return filepath.Join(catalog, "rejects-"+fileName(source)+".csv")
}

// holdsOther says whether a file is there that is neither empty nor a list of
// rejected rows: it is not replaced.
func holdsOther(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false // not there, or not to be read: writing tells
	}
	defer f.Close()
	want := strings.Join(rejectsHeader, ",") + "\n"
	have := make([]byte, len(want))
	n, _ := io.ReadFull(f, have)
	return n > 0 && string(have[:n]) != want
}

// fileName makes a source's name one that every file system takes. Names that it
// has to change stay different.
func fileName(source string) string {
	short := strings.TrimSuffix(source, ".csv")
	name := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("-_.# ", r) {
			return r
		}
		return '-'
	}, short)
	const most = 100
	if len(name) > most {
		name = strings.ToValidUTF8(name[:most], "")
	}
	if name != short {
		name += fmt.Sprintf("-%08x", crc32.ChecksumIEEE([]byte(short)))
	}
	return name
}

// add writes one rejected row.
func (r *rejectsFile) add(e *Reject, row *tabular.Row) error {
	if r.spool == nil {
		if err := r.begin(); err != nil {
			return err
		}
	}
	column := ""
	if e.At.Column > 0 {
		column = strconv.Itoa(e.At.Column)
	}
	cells := []string{strconv.Itoa(e.At.Line), column, e.Header, e.Cell, e.Reason, e.Hint, row.Raw()}
	for i := range cells {
		cells[i] = catalog.Guarded(cells[i])
	}
	return r.csv.Write(cells)
}

func (r *rejectsFile) begin() error {
	spool, remove, err := tabular.Temporary("", "rejects-*")
	if err != nil {
		return fmt.Errorf("temporary file for rejected rows: %w", err)
	}
	r.spool, r.remove, r.csv = spool, remove, csv.NewWriter(spool)
	return r.csv.Write(rejectsHeader)
}

// prepare writes the file beside its name, before the catalogue is changed.
func (r *rejectsFile) prepare() error {
	if r.spool == nil {
		return nil
	}
	r.csv.Flush()
	err := r.csv.Error()
	if err == nil {
		_, err = r.spool.Seek(0, io.SeekStart)
	}
	if err == nil {
		r.pending, err = renameio.NewPendingFile(r.path, renameio.WithTempDir(filepath.Dir(r.path)), renameio.WithPermissions(0o644))
	}
	if err == nil {
		_, err = io.Copy(r.pending, r.spool)
	}
	if err != nil {
		return fmt.Errorf("writing rejected rows to %q: %w", r.path, err)
	}
	return nil
}

// finish puts the prepared file under its name, or takes away that of an
// earlier import where nothing is rejected any more. It gives the path, empty
// for none.
func (r *rejectsFile) finish() (string, error) {
	if r.pending == nil {
		if !r.given {
			if err := os.Remove(r.path); err != nil && !errors.Is(err, os.ErrNotExist) {
				return "", fmt.Errorf("removing the rejected rows of the last import: %w", err)
			}
		}
		return "", nil
	}
	if err := r.pending.CloseAtomicallyReplace(); err != nil {
		return "", fmt.Errorf("writing rejected rows to %q: %w", r.path, err)
	}
	return r.path, nil
}

// drop removes the temporary files.
func (r *rejectsFile) drop() error {
	var errs []error
	if r.pending != nil {
		errs = append(errs, r.pending.Cleanup())
	}
	if r.spool != nil {
		errs = append(errs, r.spool.Close(), r.remove())
	}
	return errors.Join(errs...)
}
