package view

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"lowsone/cmd/internal/order"
)

// Orders is an order list.
type Orders struct {
	Lines []order.Line
	File  string // where it was written; empty where it was only shown
}

type ordersJSON struct {
	Schema
	Lines    List[lineJSON]  `json:"lines"`
	Totals   List[totalJSON] `json:"totals"`
	Unpriced int             `json:"lines_without_price"`
	File     string          `json:"file,omitempty"`
	Caution  string          `json:"caution"`
}

type lineJSON struct {
	Part      string `json:"part"`
	Maker     string `json:"maker,omitempty"`
	Supplier  string `json:"supplier,omitempty"`
	OrderCode string `json:"order_code,omitempty"`
	Quantity  int    `json:"quantity"`
	UnitPrice Number `json:"unit_price,omitzero"`
	LinePrice Number `json:"line_price,omitzero"`
	Currency  string `json:"currency,omitempty"`
	Why       string `json:"why"`
}

type totalJSON struct {
	Currency string `json:"currency,omitempty"`
	Amount   Number `json:"amount"`
	Lines    int    `json:"lines"`
}

// JSON gives the object of the shortlist command.
func (d *Orders) JSON() any {
	totals, unpriced := order.Totals(d.Lines)
	j := ordersJSON{Unpriced: unpriced, File: d.File, Caution: Caution}
	for _, l := range d.Lines {
		unit, line := prices(l)
		j.Lines = append(j.Lines, lineJSON{l.Part, l.Maker, l.Supplier, l.OrderCode, l.Quantity, Number(unit), Number(line), l.Currency, l.Why})
	}
	for _, t := range totals {
		j.Totals = append(j.Totals, totalJSON{t.Currency, Number(t.Amount), t.Lines})
	}
	return j
}

// Unsupplied says how many lines name nobody to order from; empty where all do.
func (d *Orders) Unsupplied() string {
	n := 0
	for _, l := range d.Lines {
		if l.Supplier == "" {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("lines that name no supplier: %d; lowsone import LIST --value supplier=NAME says whose list it is", n)
}

// prices gives unit and line price, NaN where they are not known.
func prices(l order.Line) (unit, line float64) {
	if line, ok := l.Price(); ok {
		return l.UnitPrice.Or(0), line
	}
	return math.NaN(), math.NaN()
}

// CSV writes the list as it is ordered from.
func (d *Orders) CSV(w io.Writer) error { return order.Write(w, d.Lines) }

// Text writes the list for people, the reason of each line below it.
func (d *Orders) Text(w io.Writer, s Style) error {
	if len(d.Lines) == 0 {
		return nil
	}
	p := &printer{w: w, style: s.within(proseWidth)}
	t := &Table{Columns: []Column{
		{Title: "no.", Number: true},
		{Title: "part", Wrap: true},
		{Title: "maker", Wrap: true, Optional: true},
		{Title: "supplier", Wrap: true, Optional: true, Spare: 1},
		{Title: "order code", Wrap: true, Optional: true},
		{Title: "pieces", Number: true},
		{Title: "each", Number: true, Optional: true},
		{Title: "line", Number: true, Optional: true},
		{Title: "currency", Optional: true},
	}}
	var why facts
	for i, l := range d.Lines {
		number := strconv.Itoa(i + 1)
		unit, line := Unknown, Unknown
		if price, ok := l.Price(); ok {
			unit, line = order.Amount(l.UnitPrice.Or(0)), order.Amount(price)
		}
		t.Add(number, l.Part, l.Maker, l.Supplier, l.OrderCode, strconv.Itoa(l.Quantity), unit, line, l.Currency)
		why.add(number, l.Why)
	}
	p.table(t)
	p.line("")
	p.facts(why)
	p.caution()
	return p.err
}

// Totals says what the list comes to, by currency.
func (d *Orders) Totals() string {
	totals, unpriced := order.Totals(d.Lines)
	text := "total:"
	for i, t := range totals {
		if i > 0 {
			text += " +"
		}
		currency := t.Currency
		if currency == "" {
			currency = "(currency not stated)"
		}
		text += " " + order.Amount(t.Amount) + " " + currency
	}
	switch {
	case len(totals) == 0:
		text += fmt.Sprintf(" not known, none of %d lines has a price", len(d.Lines))
	case unpriced > 0:
		text += fmt.Sprintf(", and %d without a price", unpriced)
	}
	return text
}
