package view

import (
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// cell gives a numeric field of a fan for a table: in the unit of its name,
// marked where it is an estimate, Unknown where there is none.
func cell(f *catalog.Fan, id catalog.FieldID) string {
	d := &catalog.Fields[id]
	v, origin := d.Get(f)
	switch origin {
	case quantity.Unknown:
		return Unknown
	case quantity.Estimate:
		return Estimated(Value(d, v.Number))
	}
	return Value(d, v.Number)
}

// hasEstimate says whether one of the fields is an estimate.
func hasEstimate(f *catalog.Fan, ids ...catalog.FieldID) bool {
	for _, id := range ids {
		if _, origin := catalog.Fields[id].Get(f); origin == quantity.Estimate {
			return true
		}
	}
	return false
}

// orUnknown gives the text, or Unknown where it is empty.
func orUnknown(text string) string {
	if text == "" {
		return Unknown
	}
	return text
}

// sizeCell gives width × height × depth in mm; what is not known of it stands
// as a question mark.
func sizeCell(f *catalog.Fan) string { return sizeBy(f, cell) }

// shortSizeCell is sizeCell for a table that wants room: a size that is given in
// inches is in whole millimetres where it is near to them.
func shortSizeCell(f *catalog.Fan) string {
	return sizeBy(f, func(f *catalog.Fan, id catalog.FieldID) string {
		d := &catalog.Fields[id]
		v, origin := d.Get(f)
		mm := d.InUnit(v.Number)
		whole := math.Round(mm)
		if origin == quantity.Unknown || math.Abs(mm-whole) > nearWhole+1e-9 {
			return cell(f, id)
		}
		if origin == quantity.Estimate {
			return Estimated(Fixed(whole, 0))
		}
		return Fixed(whole, 0)
	})
}

// nearWhole is by how many millimetres a size may be off what a table shows: less
// than frames differ by.
const nearWhole = 0.2

func sizeBy(f *catalog.Fan, cell func(*catalog.Fan, catalog.FieldID) string) string {
	ids := [...]catalog.FieldID{catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth}
	var parts []string
	known := false
	for _, id := range ids {
		text := cell(f, id)
		if text == Unknown {
			text = "?"
		} else {
			known = true
		}
		parts = append(parts, text)
	}
	if !known {
		return Unknown
	}
	return strings.Join(parts, "×")
}

// voltageCell gives the nominal voltage, or the range where only that is
// known, with AC where it is mains.
func voltageCell(f *catalog.Fan) string {
	text := cell(f, catalog.FieldVoltage)
	low, high := cell(f, catalog.FieldVoltageMin), cell(f, catalog.FieldVoltageMax)
	if text == Unknown && low != Unknown && high != Unknown {
		text = low + "–" + high
	}
	if text != Unknown && f.Supply.Or(0) == catalog.AC {
		text += " AC"
	}
	return text
}

// Marks of levels that do not compare with the others of their column.
const (
	powerMark     = "w"
	powerNote     = "w a sound power level: 11 dB above the level at 1 m in free air"
	distanceMark  = "d"
	distanceNote  = "d not at 1 m: lowsone show PART names the distance"
	distanceTrade = 1.0 // m
)

// noiseCell gives the rated level as the row states it, marked where it is no
// sound pressure level at 1 m.
func noiseCell(f *catalog.Fan) (text string, notes []string) {
	text = cell(f, catalog.FieldNoise)
	distance := float64(f.NoiseDistance.Or(distanceTrade))
	switch {
	case text == Unknown:
		return text, nil
	case f.NoiseKind.Or(0) == catalog.NoisePower:
		return text + powerMark, []string{powerNote}
	case !catalog.Same(distance, distanceTrade):
		return text + distanceMark, []string{distanceNote}
	}
	return text, nil
}

// oneCurrency gives the currency of all prices, to stand in the heading; empty
// where they have several, or one has none.
func oneCurrency(fans []*catalog.Fan) string {
	currency := ""
	for _, f := range fans {
		switch {
		case !f.Price.Known():
		case f.Currency == "" || currency != "" && currency != f.Currency:
			return ""
		default:
			currency = f.Currency
		}
	}
	return currency
}

// priceCell gives the price, with its currency unless that stands in the
// heading.
func priceCell(f *catalog.Fan, heading string) string {
	text := cell(f, catalog.FieldPrice)
	if text == Unknown || f.Currency == "" || f.Currency == heading {
		return text
	}
	return text + " " + f.Currency
}
