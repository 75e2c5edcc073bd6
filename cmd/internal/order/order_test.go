package order

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// cells are texts as a catalogue may hold them, with what spreadsheets run.
func cells() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		start := rapid.SampledFrom([]string{"", "=", "+", "-", "@", "'", "''", "\t", " =", "'=", "'-5", "-5", "＝", "\n", "\""}).Draw(t, "start")
		// encoding/csv turns CR LF inside a cell into LF, and NewLine lets no
		// control character through.
		return start + strings.ReplaceAll(rapid.String().Draw(t, "rest"), "\r", "")
	})
}

func lines() *rapid.Generator[Line] {
	return rapid.Custom(func(t *rapid.T) Line {
		l := Line{
			Part: cells().Draw(t, "part"), Maker: cells().Draw(t, "maker"),
			Supplier: cells().Draw(t, "supplier"), OrderCode: cells().Draw(t, "order code"),
			Quantity: rapid.IntRange(1, 1e6).Draw(t, "pieces"),
			Currency: cells().Draw(t, "currency"), Why: cells().Draw(t, "why"),
		}
		if rapid.Bool().Draw(t, "priced") {
			l.UnitPrice = quantity.Stated(float64(rapid.IntRange(0, 1e6).Draw(t, "cents")) / 100)
		}
		return l
	})
}

var asStruct = cmp.AllowUnexported(quantity.Known[float64]{})

func TestListReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(lines(), 0, 5).Draw(t, "lines")
		var file bytes.Buffer
		if err := Write(&file, want); err != nil {
			t.Fatal(err)
		}
		got, err := Read(bytes.NewReader(file.Bytes()))
		if err != nil {
			t.Fatalf("Read: %v\n%s", err, file.String())
		}
		if diff := cmp.Diff(want, got, asStruct, cmp.Transformer("nil", func(l []Line) []Line { return append([]Line{}, l...) })); diff != "" {
			t.Fatalf("read back (-written +read):\n%s", diff)
		}
	})
}

func priced(currency string, price float64, pieces int) Line {
	return Line{Part: "P", Quantity: pieces, Currency: currency, UnitPrice: quantity.Stated(price)}
}

func TestTotals(t *testing.T) {
	totals, unpriced := Totals([]Line{
		priced("EUR", 4.35, 3), priced("CHF", 9.9, 1), {Part: "Q", Quantity: 7, Currency: "EUR"}, priced("EUR", 0.1, 2),
	})
	want := []Total{{"CHF", 9.9, 1}, {"EUR", 13.25, 2}}
	near := cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-9 })
	if diff := cmp.Diff(want, totals, near); diff != "" {
		t.Errorf("Totals (-want +got):\n%s", diff)
	}
	if unpriced != 1 {
		t.Errorf("Totals: %d without a price, want 1", unpriced)
	}
}

// The sum of the totals is the sum of the lines, whatever their order.
func TestTotalsKeepEveryLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOf(lines()).Draw(t, "lines")
		totals, unpriced := Totals(all)
		counted := unpriced
		sum := 0.0
		for i, c := range totals {
			counted += c.Lines
			sum += c.Amount
			if i > 0 && totals[i-1].Currency >= c.Currency {
				t.Fatalf("currencies not in order: %q before %q", totals[i-1].Currency, c.Currency)
			}
		}
		for _, l := range all {
			price, _ := l.Price()
			sum -= price
		}
		if counted != len(all) || math.Abs(sum) > 1e-3 {
			t.Fatalf("%d of %d lines counted, %g of money over", counted, len(all), sum)
		}
	})
}

func TestAmount(t *testing.T) {
	for _, c := range []struct {
		in   float64
		want string
	}{{4, "4.00"}, {4.5, "4.50"}, {3 * 4.35, "13.05"}, {0.085, "0.085"}, {1234567.891, "1234567.891"}, {0, "0.00"}} {
		if got := Amount(c.in); got != c.want {
			t.Errorf("Amount(%v) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestWriteWholeList(t *testing.T) {
	fan := &catalog.Fan{Part: "-X1", Maker: "Aster & Öl", OrderCode: "00123", Currency: "EUR", Price: quantity.Stated(4.35)}
	var file strings.Builder
	if err := Write(&file, []Line{NewLine(fan, 3, "quiet,\tand it \"fits\""), NewLine(&catalog.Fan{Part: "Y"}, 1, "")}); err != nil {
		t.Fatal(err)
	}
	want := `part,maker,supplier,order_code,quantity,unit_price,line_price,currency,why
'-X1,Aster & Öl,,00123,3,4.35,13.05,EUR,"quiet, and it ""fits"""
Y,,,,1,,,,
`
	if diff := cmp.Diff(want, file.String()); diff != "" {
		t.Errorf("Write (-want +got):\n%s", diff)
	}
}

func TestReadRefuses(t *testing.T) {
	head := strings.Join(Columns, ",") + "\n"
	for _, c := range []struct{ name, file, want string }{
		{"empty", "", "not an order list"},
		{"another table", "part,maker\nA,B\n", "not an order list"},
		{"no pieces", head + "A,,,,0,,,,\n", `line 2: "quantity": not a whole number above 0: "0"`},
		{"half a piece", head + "A,,,,1,,,,\n\nB,,,,1.5,,,,\n", `line 4: "quantity": not a whole number above 0: "1.5"`},
		{"no number", head + "A,,,,1,NaN,,,\n", `line 2: "unit_price": not a price: "NaN"`},
		{"ragged", head + "A,,,,1\n", "read order list: record on line 2: wrong number of fields"},
	} {
		_, err := Read(strings.NewReader(c.file))
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: Read = %v, want %q", c.name, err, c.want)
		}
	}
	if _, err := Read(strings.NewReader("x")); !errors.Is(err, ErrNotOrders) {
		t.Errorf("Read(%q) = %v, want ErrNotOrders", "x", err)
	}
}
