package order

import (
	"slices"
	"strings"
)

// Total is the sum of the lines of one currency.
type Total struct {
	Currency string // empty: the catalogue names none
	Amount   float64
	Lines    int
}

// Totals adds the lines by currency, in the order of the currencies' names,
// and counts the lines without a price.
func Totals(lines []Line) (totals []Total, unpriced int) {
	for _, l := range lines {
		price, ok := l.Price()
		if !ok {
			unpriced++
			continue
		}
		i, found := slices.BinarySearchFunc(totals, l.Currency, func(t Total, currency string) int {
			return strings.Compare(t.Currency, currency)
		})
		if !found {
			totals = slices.Insert(totals, i, Total{Currency: l.Currency})
		}
		totals[i].Amount += price
		totals[i].Lines++
	}
	return totals, unpriced
}
