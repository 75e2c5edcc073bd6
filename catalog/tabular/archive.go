package tabular

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Bounds of what is unpacked. They keep a small file from growing without end.
const (
	// maxDirectory is the most bytes read to list what is in an archive: some
	// 50 000 names, where a workbook with pictures has hundreds.
	maxDirectory = 4 << 20
	// maxHelper is the most bytes of a part that only helps to read the sheet:
	// the list of sheets, the styles.
	maxHelper = 32 << 20
	// maxRatio is how many times its size a part may grow, and freely how many
	// bytes it may grow to in any case. Sheets shrink to a tenth, those of empty
	// cells to a fiftieth; deflate can shrink to a thousandth.
	maxRatio = 200
	freely   = 64 << 20
)

// isArchive reports whether a file begins as a ZIP archive does (also an empty
// one, or one cut into volumes).
func isArchive(head []byte) bool {
	for _, sign := range [...]string{"PK\x03\x04", "PK\x05\x06", "PK\x07\x08"} {
		if bytes.HasPrefix(head, []byte(sign)) {
			return true
		}
	}
	return false
}

// archive is a ZIP archive that is not trusted: its list of contents, and each
// part that is read, has a bound, and a part with an error in it is refused, not
// taken for a shorter one.
type archive struct {
	file  string
	list  []*zip.File
	parts map[string]*zip.File // by name in lower case; of several the first
}

func openArchive(file string, src io.ReaderAt, size int64) (*archive, error) {
	a := &archive{file: file, parts: map[string]*zip.File{}}
	limited := &limitedReaderAt{file: file, src: src, left: maxDirectory}
	r, err := zip.NewReader(limited, size)
	switch {
	case limited.left < 0:
		return nil, a.fail(ErrTooLarge, "", "its list of contents is longer than %d MiB", maxDirectory>>20)
	case err != nil:
		return nil, a.damaged("its list of contents", err)
	}
	limited.free = true
	a.list = r.File
	for _, f := range r.File {
		name := partName(f.Name)
		if _, again := a.parts[name]; !again {
			a.parts[name] = f
		}
	}
	return a, nil
}

// partName is a name as it is looked up. It is never used as a path.
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

func (a *archive) has(name string) bool { return a.parts[partName(name)] != nil }

// open opens a part that may grow to limit bytes. It returns nil where there is
// none of that name.
func (a *archive) open(ctx context.Context, name string, limit uint64) (io.Reader, error) {
	f := a.parts[partName(name)]
	if f == nil {
		return nil, nil
	}
	const encrypted = 1 // bit of the flags, APPNOTE 4.4.4
	big := f.UncompressedSize64 > limit
	swells := f.UncompressedSize64 > freely && f.UncompressedSize64/maxRatio > f.CompressedSize64
	switch {
	case f.Flags&encrypted != 0:
		return nil, locked(a.file)
	case big:
		return nil, a.fail(ErrTooLarge, saveAsTable, "%s in it unpacks to %d MiB, more than the %d MiB that are read",
			f.Name, f.UncompressedSize64>>20, limit>>20)
	case swells:
		return nil, a.fail(ErrTooLarge, saveAsTable, "%s in it unpacks to %d times its size: no sheet does",
			f.Name, f.UncompressedSize64/max(f.CompressedSize64, 1))
	}
	r, err := f.Open()
	if err != nil {
		return nil, a.damaged(f.Name, err)
	}
	return &part{ctx: ctx, archive: a, name: f.Name, r: r}, nil
}

// part is what is unpacked of one part. archive/zip ends it with an error where
// it is longer than the list of contents says, or its checksum is wrong.
type part struct {
	ctx     context.Context
	archive *archive
	name    string
	r       io.Reader
}

// Read unpacks some more.
func (p *part) Read(b []byte) (int, error) {
	if err := p.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := p.r.Read(b)
	if err != nil && err != io.EOF {
		err = p.archive.damaged(p.name, err)
	}
	return n, err
}

func (a *archive) fail(kind error, hint, format string, args ...any) *Error {
	return &Error{File: a.file, Reason: "the workbook cannot be read: " + fmt.Sprintf(format, args...), Hint: hint, Err: kind}
}

func locked(file string) *Error {
	return &Error{File: file, Reason: "the workbook is locked with a password", Hint: "save it without a password and give that file", Err: ErrLocked}
}

// damaged explains an error of archive/zip, of the unpacking, or of the XML.
func (a *archive) damaged(part string, err error) error {
	var own *Error
	switch {
	case errors.As(err, &own), errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.Is(err, zip.ErrAlgorithm):
		return a.fail(ErrDamaged, saveAsTable, "%s is packed in a way that is not read", part)
	}
	return a.fail(ErrDamaged, "open it in the program that wrote it and save it again; if it was sent, have it sent again",
		"it is damaged: %s: %s", part, err)
}

// limitedReaderAt fails once more than left bytes have been read, until it is
// made free. It tells an error of the file from one in it.
type limitedReaderAt struct {
	file string
	src  io.ReaderAt
	left int64
	free bool
}

// ReadAt reads within the limit.
func (l *limitedReaderAt) ReadAt(p []byte, off int64) (int, error) {
	switch {
	case l.left < 0:
		return 0, errLong
	case off < 0: // an offset in the archive may be so large that it wraps around
		return 0, zip.ErrFormat
	}
	n, err := l.src.ReadAt(p, off)
	if !l.free {
		l.left -= int64(n)
	}
	if err != nil && err != io.EOF {
		err = &Error{File: l.file, Reason: "cannot be read: " + err.Error(), Err: err}
	}
	return n, err
}
