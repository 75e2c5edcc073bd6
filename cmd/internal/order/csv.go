package order

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/gocarina/gocsv"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Columns lists the column names of an order list. The unit of both prices
// stands in the column currency; quantity counts pieces.
var Columns = []string{
	"part", "maker", "supplier", "order_code", "quantity", "unit_price", "line_price", "currency", "why",
}

// record is a line as text. gocsv must not read numbers: a blank would be 0.
type record struct {
	Part      string `csv:"part"`
	Maker     string `csv:"maker"`
	Supplier  string `csv:"supplier"`
	OrderCode string `csv:"order_code"`
	Quantity  string `csv:"quantity"`
	UnitPrice string `csv:"unit_price"`
	LinePrice string `csv:"line_price"`
	Currency  string `csv:"currency"`
	Why       string `csv:"why"`
}

// texts gives the cells that hold words from elsewhere.
func (r *record) texts() []*string {
	return []*string{&r.Part, &r.Maker, &r.Supplier, &r.OrderCode, &r.Currency, &r.Why}
}

// Write writes the lines as CSV: a header, commas, points as decimal mark,
// UTF-8, one line each. A price that is not known is an empty cell.
func Write(w io.Writer, lines []Line) error {
	records := make([]record, len(lines))
	for i, l := range lines {
		records[i] = recordOf(l)
	}
	if err := gocsv.MarshalCSV(records, gocsv.NewSafeCSVWriter(csv.NewWriter(w))); err != nil {
		return fmt.Errorf("write order list: %w", err)
	}
	return nil
}

func recordOf(l Line) record {
	r := record{
		Part: l.Part, Maker: l.Maker, Supplier: l.Supplier, OrderCode: l.OrderCode,
		Quantity: strconv.Itoa(l.Quantity), Currency: l.Currency, Why: l.Why,
	}
	if unit, ok := l.UnitPrice.Get(); ok {
		r.UnitPrice = Amount(unit)
	}
	if price, ok := l.Price(); ok {
		r.LinePrice = Amount(price)
	}
	for _, text := range r.texts() {
		*text = catalog.Guarded(*text)
	}
	return r
}

// Amount writes a sum of money plainly: two decimals, or all it has where it
// has more.
func Amount(v float64) string {
	text := catalog.Number(v)
	whole, decimals, _ := strings.Cut(text, ".")
	if len(decimals) > 2 {
		return text
	}
	return whole + "." + (decimals + "00")[:2]
}

// ErrNotOrders reports a text whose first line is not the header of an order
// list.
var ErrNotOrders = errors.New("not an order list")

// LineError reports a line of an order list that cannot be one.
type LineError struct {
	Line   int // physical, from 1
	Column string
	Text   string
	Reason string
}

// Error names the line and the column.
func (e *LineError) Error() string {
	return fmt.Sprintf("line %d: %q: %s: %q", e.Line, e.Column, e.Reason, e.Text)
}

// Read reads what Write wrote. A text that is no order list is ErrNotOrders; a
// line with a bad number is a *LineError.
func Read(r io.Reader) ([]Line, error) {
	from := csv.NewReader(r)
	rows, err := gocsv.NewUnmarshaller(from, record{})
	if err != nil || !slices.Equal(rows.Headers, Columns) {
		return nil, ErrNotOrders
	}
	from.FieldsPerRecord = len(Columns)
	var lines []Line
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return lines, nil
		}
		if err != nil {
			return nil, fmt.Errorf("read order list: %w", err)
		}
		at, _ := from.FieldPos(0)
		line, err := row.(record).line(at)
		if err != nil {
			return nil, err
		}
		lines = append(lines, line)
	}
}

func (r record) line(at int) (Line, error) {
	for _, text := range r.texts() {
		*text = catalog.Unguarded(*text)
	}
	l := Line{
		Part: r.Part, Maker: r.Maker, Supplier: r.Supplier, OrderCode: r.OrderCode,
		Currency: r.Currency, Why: r.Why,
	}
	var err error
	if l.Quantity, err = strconv.Atoi(r.Quantity); err != nil || l.Quantity < 1 {
		return Line{}, &LineError{at, "quantity", r.Quantity, "not a whole number above 0"}
	}
	if r.UnitPrice == "" {
		return l, nil
	}
	unit, err := strconv.ParseFloat(r.UnitPrice, 64)
	if err != nil || !(unit >= 0) || math.IsInf(unit, 0) {
		return Line{}, &LineError{at, "unit_price", r.UnitPrice, "not a price"}
	}
	l.UnitPrice = quantity.Stated(unit)
	return l, nil
}
