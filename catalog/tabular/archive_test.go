package tabular

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
)

// tape keeps what is written to it as pieces, equal ones once: a workbook that is
// too long to be kept in memory.
type tape struct{ long }

func (p *tape) Write(b []byte) (int, error) {
	if n := len(p.long); n > 0 && p.long[n-1].text == string(b) {
		p.long[n-1].times++
	} else {
		p.long = append(p.long, piece{string(b), 1})
	}
	return len(b), nil
}

// longBook is a workbook written by hand, one of whose parts is long and not
// packed.
func longBook(t *testing.T, p parts, name string, body long) long {
	t.Helper()
	out := &tape{}
	w := zip.NewWriter(out)
	for n, text := range p {
		if n == name {
			continue
		}
		part, err := w.Create(n)
		must(t, err)
		_, err = io.WriteString(part, text)
		must(t, err)
		must(t, w.Flush())
	}
	part, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
	must(t, err)
	must(t, w.Flush())
	for _, piece := range body {
		for range piece.times {
			_, err := io.WriteString(part, piece.text)
			must(t, err)
			must(t, w.Flush())
		}
	}
	must(t, w.Close())
	return out.long
}

// TestTooLargeWorkbook: what no memory should hold is refused, with its place.
func TestTooLargeWorkbook(t *testing.T) {
	const (
		sheet1 = "xl/worksheets/sheet1.xml"
		shared = "xl/sharedStrings.xml"
		head   = `<worksheet><sheetData><row><c t="s"><v>0</v></c></row>`
		cell   = `<row><c t="inlineStr"><is><t>`
	)
	block := strings.Repeat("x", 1<<16)
	rows := strings.Repeat("<row/>", 1<<10)
	tests := []struct {
		name, part string
		body       long
		want       error
		message    string
	}{
		{"a cell of almost 1 GiB", sheet1, long{{head + cell, 1}, {block, 1<<14 - 1}}, ErrTooLong, "Fans!2: the row holds more than 1048576 bytes"},
		{"a row of many texts", sheet1, long{{head + "<row>", 1}, {`<c t="str"><v>` + block + "</v></c>", 1 << 6}}, ErrTooLong, "Fans!2: the row holds more than"},
		{"one of many texts", sheet1, long{{head + cell, 1}, {block + "</t></is><is><t>", 1 << 6}}, ErrTooLong, "Fans!2: the row holds more than"},
		{"a tag of 20 MiB", sheet1, long{{head + `<row x="`, 1}, {block, 20 << 4}}, ErrTooLong, "Fans!1: the row holds more than"},
		{"a comment of 20 MiB", sheet1, long{{head + `<!--`, 1}, {block, 20 << 4}}, ErrTooLong, "Fans!1: the row holds more than"},
		{"10^7 empty rows", sheet1, long{{head, 1}, {rows, 10_000}}, ErrTooLarge, "Fans!1048576: the sheet has more than 1048576 rows"},
		{"10^6 cells", sheet1, long{{head + `<row>`, 1}, {strings.Repeat("<c/>", 1000), 1000}}, ErrTooWide, "Fans!2: the row has more than the 16384 cells"},
		{"10^6 merged cells", sheet1, long{{head + `</sheetData><mergeCells>`, 1}, {strings.Repeat(`<mergeCell ref="A1:A3"/>`, 1000), 1000}}, ErrTooLarge, "more than 262144 cells"},
		{"elements without end", sheet1, long{{head, 1}, {strings.Repeat("<x>", 1000), 1000}}, ErrDamaged, "more than 100 elements"},
		{"a shared text of 20 MiB", shared, long{{`<sst><si><t>`, 1}, {block, 20 << 4}}, ErrTooLong, "xl/sharedStrings.xml: a text or tag in it is longer than 1048576 bytes"},
		{"one of many runs", shared, long{{`<sst><si>`, 1}, {"<r><t>" + block + "</t></r>", 1 << 6}}, ErrTooLong, "xl/sharedStrings.xml: a text or tag in it is longer than"},
		{"shared texts of 160 MiB", shared, long{{`<sst>`, 1}, {"<si><t>" + block + "</t></si>", 160 << 4}}, ErrTooLarge, "its texts take more than 128 MiB"},
		{"styles of 40 MiB", "xl/styles.xml", long{{`<styleSheet>`, 1}, {block, 40 << 4}}, ErrTooLarge, "xl/styles.xml in it unpacks to 40 MiB, more than the 32 MiB"},
		{"10^6 styles", "xl/styles.xml", long{{`<styleSheet><cellXfs>`, 1}, {strings.Repeat("<xf/>", 1000), 1000}}, ErrTooLarge, "more than 65536 styles"},
		{"10^6 sheets", "xl/workbook.xml", long{{`<workbook><sheets>`, 1}, {strings.Repeat("<sheet/>", 1000), 1000}}, ErrDamaged, "it lists more than 10000 parts"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			file := longBook(t, handmade(""), tt.part, tt.body)
			before := allocated()
			_, err := Open(context.Background(), "x.xlsx", file, file.size(), Options{})
			if !errors.Is(err, tt.want) || !strings.Contains(err.Error(), tt.message) {
				t.Errorf("error = %v, want %v: %q", err, tt.want, tt.message)
			}
			if got := allocated() - before; got > 192<<20 {
				t.Errorf("allocated %d MiB in all, want less than 192", got>>20)
			}
		})
	}
}

// TestManySheetRows: a pass over a long sheet keeps no more than a few buffers.
func TestManySheetRows(t *testing.T) {
	const n, block = 100_000, 100
	row := `<row><c t="s"><v>0</v></c><c><v>12.5</v></c><c t="inlineStr"><is><t>axial fan, 3 leads, with grille</t></is></c></row>`
	file := longBook(t, handmade(""), "xl/worksheets/sheet1.xml", long{
		{`<worksheet><sheetData><row><c t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="s"><v>2</v></c></row>`, 1},
		{strings.Repeat(row, block), n / block}, {`</sheetData></worksheet>`, 1}})
	f, err := Open(t.Context(), "x.xlsx", file, file.size(), Options{HeaderLine: 1})
	must(t, err)
	readsInLittleMemory(t, f, n)
}

// TestLargeClaims: a sheet may claim what it likes. Only what is there counts.
func TestLargeClaims(t *testing.T) {
	header := ""
	for column := 1; column <= MaxColumns; column += farAway {
		header += `<c r="` + columnName(column) + `1" t="s"><v>0</v></c>`
	}
	rows := `<row r="1">` + header + `</row><row r="2" spans="1:16384"><c r="B2"><v>1</v></c></row><row r="1048576"><c r="XFD1048576" t="s"><v>2</v></c></row>`
	p := handmade(rows).with("xl/worksheets/sheet1.xml", "<sheetData>", `<dimension ref="A1:XFD1048576"/><cols><col min="1" max="16384"/></cols><sheetData>`).
		with("xl/worksheets/sheet1.xml", "</sheetData>", `</sheetData><mergeCells count="1"><mergeCell ref="B2:XFD1048576"/></mergeCells>`).
		with("xl/sharedStrings.xml", "<sst>", `<sst count="4294967295" uniqueCount="4294967295">`)
	text := p.zipped(t)
	before := allocated()
	f := opened(t, text, Options{HeaderLine: 1})
	got := rowsOf(t, f)
	if len(got) != 2 || got[1].Line != 1<<20 || got[1].Fields[1] != "1" || got[1].Fields[MaxColumns-1] != "c" || got[1].At(MaxColumns-1) != (Position{1 << 20, MaxColumns}) {
		t.Errorf("%d rows, the last on line %d, want the one on 1048576 with 1 handed down and c in its last cell", len(got), got[len(got)-1].Line)
	}
	if got := allocated() - before; got > 64<<20 {
		t.Errorf("allocated %d MiB in all, want less than 64", got>>20)
	}
}

// TestManyTexts: a text that many cells share is still handed out for each of them,
// so that all of them together have a bound.
func TestManyTexts(t *testing.T) {
	f := opened(t, handmade(strings.Repeat(`<row><c t="s"><v>1</v></c></row>`, 1100)).zipped(t), Options{})
	f.sheet.shared[1] = strings.Repeat("x", MaxRecord)
	rows, err := 0, error(nil)
	for _, err = range f.Rows(t.Context()) {
		rows++
	}
	if !errors.Is(err, ErrTooLarge) || err.Error() != "fans.csv:Fans!A1025: the cells of the sheet hold more than 1024 MiB of text" {
		t.Errorf("error behind %d rows = %v, want ErrTooLarge at A1025", rows, err)
	}
}

// TestBombs: archives that grow, or lie about how much they do.
func TestBombs(t *testing.T) {
	const sheet1 = "xl/worksheets/sheet1.xml"
	swollen := handmade(strings.Repeat(" ", freely+1))
	tests := []struct {
		name, text string
		want       error
		message    string
	}{
		{"64 MiB from some KiB", swollen.zipped(t), ErrTooLarge, "times its size: no sheet does"},
		{"more than it says", withSize(t, swollen.zipped(t), sheet1, 1000), ErrDamaged, sheet1},
		{"less than it says", withSize(t, handmade("").zipped(t), sheet1, 1<<20), ErrDamaged, sheet1},
		{"4 GiB as it says", withSize(t, handmade("").zipped(t), sheet1, 1<<32-2), ErrTooLarge, "unpacks to 4095 MiB, more than the 1024 MiB that are read"},
		{"a list of contents without end", directoryOnly(200_000), ErrTooLarge, "its list of contents is longer than 4 MiB"},
		{"parts that begin beyond the end", patched(t, handmade("").zipped(t), sheet1, 42, 0x7fffff00), ErrDamaged, sheet1},
		{"parts that begin elsewhere", patched(t, handmade("").zipped(t), sheet1, 42, 3), ErrDamaged, sheet1},
		{"parts longer than the file", patched(t, handmade("").zipped(t), sheet1, 20, 0x7fffff00), ErrDamaged, sheet1},
		{"packed in an unknown way", patched(t, handmade("").zipped(t), sheet1, 10, 99), ErrDamaged, "is packed in a way that is not read"},
		{"a part with a password", patched(t, handmade("").zipped(t), sheet1, 8, 1), ErrLocked, "locked with a password"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before := allocated()
			e := refused(t, tt.text, Options{})
			if !errors.Is(e, tt.want) || !strings.Contains(e.Error(), tt.message) {
				t.Errorf("error = %v, want %v: %q", e, tt.want, tt.message)
			}
			if got := allocated() - before; got > 64<<20 {
				t.Errorf("allocated %d MiB in all, want less than 64", got>>20)
			}
		})
	}
}

// entryOf finds where the list of contents describes a part (APPNOTE 4.3.12).
func entryOf(t *testing.T, text, name string) int {
	t.Helper()
	const fixed = 46 // bytes before the name
	at := strings.LastIndex(text, name) - fixed
	if at < 0 || !strings.HasPrefix(text[at:], "PK\x01\x02") {
		t.Fatalf("no %s in the list of contents", name)
	}
	return at
}

// patched writes a number over what stands at an offset in the description of a
// part.
func patched(t *testing.T, text, name string, offset int, value uint32) string {
	t.Helper()
	out := []byte(text)
	at := entryOf(t, text, name) + offset
	if offset < 16 {
		binary.LittleEndian.PutUint16(out[at:], uint16(value))
	} else {
		binary.LittleEndian.PutUint32(out[at:], value)
	}
	return string(out)
}

// withSize lets a part claim a size.
func withSize(t *testing.T, text, name string, size uint32) string {
	t.Helper()
	return patched(t, text, name, 24, size)
}

// directoryOnly is an archive that lists n parts, and holds none.
func directoryOnly(n int) string {
	var b bytes.Buffer
	b.WriteString("PK\x03\x04")
	entry := append([]byte("PK\x01\x02"), make([]byte, 42)...)
	entry[28] = 1
	entry = append(entry, 'x')
	for range n {
		b.Write(entry)
	}
	end := append([]byte("PK\x05\x06"), make([]byte, 18)...)
	binary.LittleEndian.PutUint16(end[8:], uint16(n))
	binary.LittleEndian.PutUint16(end[10:], uint16(n))
	binary.LittleEndian.PutUint32(end[12:], uint32(n*len(entry)))
	binary.LittleEndian.PutUint32(end[16:], 4)
	b.Write(end)
	return b.String()
}

// TestNamesInAnArchive: names of parts lead nowhere outside the archive.
func TestNamesInAnArchive(t *testing.T) {
	t.Chdir(t.TempDir())
	p := handmade(`<row><c t="s"><v>0</v></c></row><row><c t="s"><v>1</v></c></row>`)
	for _, name := range []string{"../../x", "/x", `..\x`, "c:/x", "xl/../../x"} {
		p[name] = "x"
	}
	if got := cellsOf(rowsOf(t, opened(t, p.zipped(t), Options{}))); len(got) != 1 {
		t.Errorf("rows = %q, want one", got)
	}
	p = handmade("").with("xl/_rels/workbook.xml.rels", "worksheets/sheet1.xml", "../../../../etc/hostname")
	if e := refused(t, p.zipped(t), Options{}); !errors.Is(e, ErrDamaged) || !strings.Contains(e.Reason, "it is not there") {
		t.Errorf("error = %v, want that the part is not there", e)
	}
	wantNothingWritten(t)
}

// TestTwoPartsOfOneName: the first counts, whoever asks.
func TestTwoPartsOfOneName(t *testing.T) {
	p := handmade(`<row><c t="s"><v>0</v></c></row><row><c t="s"><v>1</v></c></row>`)
	p["XL/sharedStrings.xml"] = `<sst><si><t>A</t></si><si><t>B</t></si></sst>` // it stands before the other
	if got := cellsOf(rowsOf(t, opened(t, p.zipped(t), Options{}))); !slices.Equal(got, []string{"B"}) {
		t.Errorf("rows = %q, want B", got)
	}
}

// TestUnreadableWorkbook: an error of the file is told from one in it.
func TestUnreadableWorkbook(t *testing.T) {
	text := plainBook(t, []any{"a"}, []any{1})
	broken := errors.New("broken disk")
	_, err := Open(t.Context(), "x.xlsx", brokenFrom{text, 100, broken}, int64(len(text)), Options{})
	if !errors.Is(err, broken) || !strings.Contains(err.Error(), "cannot be read: broken disk") {
		t.Errorf("error = %v, want the one of the disk", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Open(ctx, "x.xlsx", strings.NewReader(text), int64(len(text)), Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error = %v, want context.Canceled", err)
	}
}

// brokenFrom is a text that cannot be read from an offset on.
type brokenFrom struct {
	text string
	from int64
	err  error
}

func (b brokenFrom) ReadAt(p []byte, off int64) (int, error) {
	if off+int64(len(p)) > b.from && off >= 70 {
		return 0, b.err
	}
	return strings.NewReader(b.text).ReadAt(p, off)
}
