package view

import (
	"math"
	"strconv"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// Unknown is what people see where nothing is known.
const Unknown = "–"

// EstimateMark stands before a value that was estimated, EstimateNote under
// every table that has one.
const (
	EstimateMark = "~"
	EstimateNote = "~ estimated: no sheet gave it"
)

// Estimated marks a text as an estimate; Unknown stays as it is.
func Estimated(text string) string {
	if text == Unknown {
		return text
	}
	return EstimateMark + text
}

// Digits writes v with n significant digits, trailing zeros kept: 20.0, 0.123.
// Digits before the point are never rounded away: 1234 stays so. Not finite:
// Unknown.
func Digits(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Unknown
	}
	if v == 0 {
		return "0"
	}
	// Rounding first lets 9.996 be 10.0, not 10.00.
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', n-1, 64), 64)
	if err != nil {
		rounded = v
	}
	before := int(math.Floor(math.Log10(math.Abs(rounded)))) + 1
	return Fixed(v, max(0, n-before))
}

// Fixed writes v with so many decimals. Not finite: Unknown.
func Fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Unknown
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// Trim drops the zeros at the end of a decimal fraction: 20.0 becomes 20.
func Trim(number string) string {
	if !strings.Contains(number, ".") {
		return number
	}
	return strings.TrimRight(strings.TrimRight(number, "0"), ".")
}

// Value writes a field's SI value in the unit of its name, with digits as the
// trade reads them and without the unit; Unknown for NaN.
func Value(d *catalog.Field, si float64) string {
	v := d.InUnit(si)
	switch {
	case d.Form == catalog.Money:
		return Fixed(v, 2)
	case d.Form == catalog.Count:
		return Fixed(v, 0)
	}
	switch d.Unit.Dimension {
	case quantity.DimLength:
		if d.Unit.Symbol == "mm" {
			return Trim(Fixed(v, 1))
		}
		return Trim(Fixed(v, 2))
	case quantity.DimVoltage:
		return Trim(Fixed(v, 2))
	case quantity.DimLevel, quantity.DimTemperature:
		return Trim(Fixed(v, 1))
	case quantity.DimSpeed, quantity.DimTime, quantity.DimFrequency:
		return Fixed(v, 0)
	default:
		return Trim(Digits(v, 3))
	}
}
