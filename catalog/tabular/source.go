package tabular

// source hands out the records of a table, one at a time: records those of a
// text, sheetRows those of a sheet. What it says about a record is good until
// the next.
type source interface {
	next() error     // io.EOF behind the last
	begins() int     // line the record begins on
	cells() []string // as they stand between delimiters and quotes
	typed() []bool   // which of them the file itself says are numbers, written with a point; nil for none
	blank() bool     // the record is no row
	fieldPlace(column int) Position
	raw() string   // the record as it stands in the file
	whole() []byte // the same with what ends it; nil on a sheet, where nothing does
	tail() int64   // how far has been read: two passes over one file end alike
}

var (
	_ source = (*records)(nil)
	_ source = (*sheetRows)(nil)
)
