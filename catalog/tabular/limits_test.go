package tabular

import (
	"context"
	"errors"
	"io"
	"runtime"
	"strings"
	"testing"
)

// piece is a text repeated.
type piece struct {
	text  string
	times int64
}

// long is a file made of pieces, too long to be kept in memory.
type long []piece

func (l long) size() int64 {
	n := int64(0)
	for _, p := range l {
		n += int64(len(p.text)) * p.times
	}
	return n
}

// ReadAt fills b from the piece that off lies in, and on.
func (l long) ReadAt(b []byte, off int64) (int, error) {
	n := 0
	for _, p := range l {
		size := int64(len(p.text)) * p.times
		for off < size && n < len(b) {
			c := copy(b[n:], p.text[off%int64(len(p.text)):])
			c = min(c, int(size-off))
			n += c
			off += int64(c)
		}
		off = max(off-size, 0)
	}
	if n < len(b) {
		return n, io.EOF
	}
	return n, nil
}

// TestTooLong: what no memory should hold is refused, naming the line it began on.
func TestTooLong(t *testing.T) {
	block := strings.Repeat("x", 1<<16)
	lines := strings.Repeat("D;60;12\n", 1<<13)
	tests := []struct {
		name string
		file long
		want error
		line int
		hint string
	}{
		{"a cell of 1 GiB", long{{"a;b\n1;2\r\r1;", 1}, {block, 1 << 14}, {"\n1;2\n", 1}}, ErrTooLong, 4, ""},
		{"a quoted cell of 300 MiB", long{{"a;b\n1;\"", 1}, {block, 300 << 4}, {"\"\n", 1}}, ErrTooLong, 2, "line 2 may lack its end"},
		{"a quote that swallows 100 MiB of lines", long{{"a;b;c\n1;\"x\ny\";\"2\n", 1}, {lines, 100 << 4}}, ErrTooLong, 2, "line 3 may lack its end"},
		{"the same, lenient", long{{"a;b;c\n1;2\";3\n1;\"2;3\n", 1}, {lines, 100 << 4}}, ErrTooLong, 3, "line 3 may lack its end"},
		{"a header of 10^6 columns", long{{"c;", 1_000_000}, {"c\n1;2\n", 1}}, ErrTooLong, 1, ""},
		{"a header of 10^5 columns", long{{"c;", 100_000}, {"c\n1;2\n", 1}}, ErrTooWide, 1, ""},
		{"200 000 cells in quotes", long{{"a;b\n1;2\n", 1}, {"\"x\"\"y\"\"\";", 200_000}, {"\n", 1}}, ErrTooLong, 3, ""},
		{"one byte more than the limit", long{{"a\n", 1}, {"x", MaxRecord + 1}, {"\r\n", 1}}, ErrTooLong, 2, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before := allocated()
			_, err := Open(context.Background(), "x.csv", tt.file, tt.file.size(), Options{})
			var e *Error
			if !errors.Is(err, tt.want) || !errors.As(err, &e) || e.At.Line != tt.line || !strings.Contains(e.Hint, tt.hint) {
				t.Errorf("error = %v (%+v), want %v on line %d, hint %q", err, e, tt.want, tt.line, tt.hint)
			}
			if got := allocated() - before; got > 192<<20 {
				t.Errorf("allocated %d MiB in all, want less than 192", got>>20)
			}
		})
	}
}

// allocated is what has been allocated so far, freed or not.
func allocated() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.TotalAlloc
}

// TestNotTooLong: the limit is for one record.
func TestNotTooLong(t *testing.T) {
	tests := []struct {
		name string
		file long
		rows int
	}{
		{"exactly the limit", long{{"a\n", 1}, {"x", MaxRecord}, {"\r\ny", 1}}, 2},
		{"the limit, in quotes and over lines", long{{"a;b\n\"", 1}, {"\r\n", (MaxRecord - 4) / 2}, {"\";1\n2;3\n", 1}}, 2},
		{"blank lines between rows", long{{"a;b\n", 1}, {"\r\n\n\r", 1 << 20}, {"1;2\n", 1}, {"\n", 2 << 20}, {"3;4\n", 1}}, 2},
		{"the widest header", long{{"c;", MaxColumns - 1}, {"c\n1", 1}, {";", MaxColumns - 1}, {"\n", 1}}, 1},
		{"exactly the limit, its CR last in a buffer", long{{"ab\n", 1}, {"a\n", 32766}, {"x", MaxRecord}, {"\r\ny", 1}}, 32768},
		{"blank lines above it all", long{{"\n", 1 << 20}, {"a;b\n1;2\n", 1}}, 1},
		{"10^7 empty rows", long{{"a;b\n1;2\n", 1}, {"\n", 10_000_000}, {"3;4\n", 1}}, 2},
		{"a row of 10^6 cells", long{{"a;b\n1;2\n", 1}, {";", 999_998}, {"x\n", 1}}, 2},
		{"400 000 doubled quote marks", long{{"a;b\n1;\"", 1}, {"\"\"", 400_000}, {"\"\n2;3\n", 1}}, 2},
		{"900 001 quote marks that are not doubled", long{{"a;b\n1;", 1}, {"\"", 900_001}, {"\n2;3\n", 1}}, 2},
		{"form feeds", long{{"a;b\n", 1}, {"\f", 3 << 20}, {"1;2\n", 1}}, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f, err := Open(context.Background(), "x.csv", tt.file, tt.file.size(), Options{})
			if err != nil {
				t.Fatal(err)
			}
			if n, _ := f.RowCount(); n != tt.rows {
				t.Errorf("rows = %d, want %d", n, tt.rows)
			}
		})
	}
}

// TestManyRows: a pass over 25 MB keeps no more than a few buffers.
func TestManyRows(t *testing.T) {
	const n = 200_000
	file := long{{"part;maker;frame;depth;voltage;current;airflow;pressure;speed;noise;price;text\n", 1},
		{"KX-1;Lumora;60;25;12 V;0,15;30,5;41,2;3000;28,4;7,90;axial fan, 3 leads, with grille, and a longer description of what it is for\n", n}}
	f, err := Open(context.Background(), "x.csv", file, file.size(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	readsInLittleMemory(t, f, n)
}

// readsInLittleMemory reads n rows, one a line from the second on, in less than
// 16 MiB.
func readsInLittleMemory(t *testing.T, f *File, n int) {
	t.Helper()
	rows, peak := 0, uint64(0)
	for row, err := range f.Rows(context.Background()) {
		if err != nil {
			t.Fatal(err)
		}
		if rows++; rows%20_000 == 0 {
			runtime.GC()
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			peak = max(peak, m.HeapAlloc)
		}
		if row.Line != rows+1 {
			t.Fatalf("row %d is on line %d", rows, row.Line)
		}
	}
	if rows != n || peak > 16<<20 {
		t.Errorf("rows = %d, heap %d MiB, want %d, less than 16", rows, peak>>20, n)
	}
}

// TestLateUnclosedQuote: line numbers in errors hold behind what has been let go.
func TestLateUnclosedQuote(t *testing.T) {
	file := long{{"a;b\r\n", 1}, {"1;2\r\n3;4\r5;6\n\n", 50_000}, {"7;\"8\n", 1}}
	_, err := Open(context.Background(), "x.csv", file, file.size(), Options{})
	var e *Error
	if !errors.As(err, &e) || e.At != (Position{200_002, 3}) {
		t.Errorf("error = %v, want one at line 200002, column 3", err)
	}
}
