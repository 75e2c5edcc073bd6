package tabular

import (
	"bytes"
	"strings"
)

const saveAsTable = "save the table as CSV or .xlsx and give that file"

// signatures are the first bytes of kinds of file that people take for a CSV.
// Common practice; the values are those the formats publish.
var signatures = []struct {
	prefix, what, hint string
}{
	{"%PDF-", "a PDF", "ask for the table as CSV or .xlsx; a PDF holds no rows"},
	{"{\\rtf", "a rich text document", saveAsTable},
	{"\x1f\x8b", "compressed (gzip)", "unpack it first"},
	{"\xfd7zXZ\x00", "compressed (xz)", "unpack it first"},
	{"\x28\xb5\x2f\xfd", "compressed (zstd)", "unpack it first"},
	{"7z\xbc\xaf\x27\x1c", "a 7z archive", "unpack it first"},
	{"Rar!\x1a\x07", "a RAR archive", "unpack it first"},
	{"\x89PNG\r\n\x1a\n", "a picture (PNG)", "a picture of a table cannot be read; give the table as CSV or .xlsx"},
	{"\xff\xd8\xff", "a picture (JPEG)", "a picture of a table cannot be read; give the table as CSV or .xlsx"},
	{"GIF87a", "a picture (GIF)", "a picture of a table cannot be read; give the table as CSV or .xlsx"},
	{"GIF89a", "a picture (GIF)", "a picture of a table cannot be read; give the table as CSV or .xlsx"},
	{"SQLite format 3\x00", "a database (SQLite)", "export the table as CSV"},
	{"\x7fELF", "a program", ""},
	{"\xff\xfe\x00\x00", "UTF-32 text", "save it as UTF-8"},
	{"\x00\x00\xfe\xff", "UTF-32 text", "save it as UTF-8"},
}

// binaryKind names what the first bytes of a file belong to, if it is no CSV.
func binaryKind(head []byte) (what, hint string) {
	for _, s := range signatures {
		if bytes.HasPrefix(head, []byte(s.prefix)) {
			return s.what, s.hint
		}
	}
	start := strings.ToLower(string(bytes.TrimLeft(head[:min(len(head), 256)], "\xef\xbb\xbf \t\r\n")))
	if strings.HasPrefix(start, "<!doctype html") || strings.HasPrefix(start, "<html") {
		return "a web page", "download the CSV itself, not the page that offers it"
	}
	if strings.HasPrefix(start, "<?xml") {
		return "an XML document", saveAsTable
	}
	return "", ""
}

// notTable refuses a file for what it is instead.
func notTable(file, what, hint string) *Error {
	return &Error{File: file, Reason: "not a CSV or .xlsx: this is " + what, Hint: hint, Err: ErrNotText}
}
