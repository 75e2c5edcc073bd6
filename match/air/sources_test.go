package air

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"lowsone/testdata/sources"
)

// record is one row of a file of published values, by column name.
type record map[string]string

// records reads a file of published values.
func records(t testing.TB, name string) []record {
	t.Helper()
	return sources.Records[record](t, name)
}

// number returns the value of a column and half a unit of its last digit.
func (r record) number(t *testing.T, column string) (value, half float64) {
	t.Helper()
	text := r[column]
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	mantissa, exponent, _ := strings.Cut(text, "e")
	power, _ := strconv.Atoi(exponent)
	if _, decimals, ok := strings.Cut(mantissa, "."); ok {
		power -= len(decimals)
	}
	return value, 0.5 * math.Pow10(power) * (1 + 1e-9)
}

// check compares with a published value.
func check(t *testing.T, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g (%s)", call, got, want, tol, source)
	}
}
