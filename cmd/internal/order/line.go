package order

import (
	"strings"
	"unicode"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Line is one position of an order list.
type Line struct {
	Part, Maker         string
	Supplier, OrderCode string
	Quantity            int                     // pieces, above 0
	UnitPrice           quantity.Known[float64] // of one piece, in Currency
	Currency            string                  // empty where the catalogue names none
	Why                 string
}

// NewLine gives the line that orders pieces of fan f. Control characters in
// its texts become blanks: an order list has no use for them.
func NewLine(f *catalog.Fan, pieces int, why string) Line {
	return Line{
		Part: plain(f.Part), Maker: plain(f.Maker),
		Supplier: plain(f.Supplier), OrderCode: plain(f.OrderCode),
		Quantity: pieces, UnitPrice: f.Price, Currency: plain(f.Currency), Why: plain(why),
	}
}

// Price gives the price of the whole line, in its Currency; ok only where the
// unit price is known.
func (l Line) Price() (price float64, ok bool) {
	unit, ok := l.UnitPrice.Get()
	return unit * float64(l.Quantity), ok
}

// plain puts a blank for every control character and cuts blanks at both ends.
func plain(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, text))
}
