package tabular

import (
	"bytes"
	"context"
	"io"
	"path"
	"slices"
	"strings"
)

// noWorkbook says what an archive is that holds no workbook we read. The names are
// those the formats publish.
func (a *archive) noWorkbook(ctx context.Context) error {
	what, hint := a.kind(ctx)
	return notTable(a.file, what, hint)
}

func (a *archive) kind(ctx context.Context) (what, hint string) {
	mime := a.mimeType(ctx)
	iwa := func(name string) bool { return path.Ext(name) == ".iwa" || path.Base(name) == "index.zip" }
	names := make([]string, 0, len(a.parts))
	for name := range a.parts {
		names = append(names, name)
	}
	switch {
	case a.has("xl/workbook.bin"):
		return "a workbook in binary form (.xlsb)", saveAsTable
	case strings.HasPrefix(mime, "application/vnd.oasis.opendocument.spreadsheet"):
		return "an OpenDocument sheet (.ods)", saveAsTable
	case strings.HasPrefix(mime, "application/vnd.oasis.opendocument"):
		return "an OpenDocument file, and no sheet", saveAsTable
	case slices.ContainsFunc(names, iwa):
		return "a .numbers document or one of its kin", saveAsTable
	case a.has("word/document.xml"):
		return "a text document (.docx)", saveAsTable
	case a.has("ppt/presentation.xml"):
		return "slides (.pptx)", saveAsTable
	case len(names) == 0:
		return "an empty ZIP archive", ""
	}
	return "a ZIP archive", "unpack it, and give the table in it"
}

// mimeType reads what OpenDocument files say they are, OpenDocument 1.2 part 3,
// clause 3.3; empty for others.
func (a *archive) mimeType(ctx context.Context) string {
	const longest = 100
	r, err := a.open(ctx, "mimetype", maxHelper)
	if r == nil || err != nil {
		return ""
	}
	text, err := io.ReadAll(io.LimitReader(r, longest))
	if err != nil {
		return ""
	}
	return string(text)
}

// isCompound reports whether a file begins as a compound file does, [MS-CFB]
// 2.2: the form of old workbooks and documents, and of what is locked with a
// password.
func isCompound(head []byte) bool {
	return bytes.HasPrefix(head, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"))
}

// compound refuses a compound file. It tells them apart by the names of what they
// hold, which stand in them as UTF-16.
func (f *File) compound(ctx context.Context) error {
	seen := findAny(ctx, f.bytes(), [][]byte{wide("EncryptedPackage"), wide("Workbook"), wide("Book"), wide("WordDocument")})
	switch {
	case seen[0]:
		return locked(f.name)
	case seen[1], seen[2]:
		return notTable(f.name, "an old workbook (.xls)", saveAsTable)
	case seen[3]:
		return notTable(f.name, "an old text document (.doc)", saveAsTable)
	}
	return notTable(f.name, "an old workbook or document (.xls, .doc)", saveAsTable)
}

// wide is a name of ASCII letters in UTF-16, with the zero that ends it.
func wide(name string) []byte {
	var out []byte
	for i := range len(name) {
		out = append(out, name[i], 0)
	}
	return append(out, 0, 0)
}

// findAny looks which of several texts a file holds. An unreadable rest holds
// none.
func findAny(ctx context.Context, r io.Reader, texts [][]byte) []bool {
	seen := make([]bool, len(texts))
	longest := len(slices.MaxFunc(texts, func(a, b []byte) int { return len(a) - len(b) }))
	buf := make([]byte, 0, longest+chunk)
	for ctx.Err() == nil {
		n, err := r.Read(buf[len(buf):cap(buf)])
		buf = buf[:len(buf)+n]
		for i, t := range texts {
			seen[i] = seen[i] || bytes.Contains(buf, t)
		}
		if err != nil {
			break
		}
		kept := min(len(buf), longest)
		buf = buf[:copy(buf, buf[len(buf)-kept:])]
	}
	return seen
}
