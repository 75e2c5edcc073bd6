package curve

import (
	"math"
	"strconv"
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

// number returns the value of a column, or without where the cell is empty.
func (r record) number(t testing.TB, column string, without float64) float64 {
	t.Helper()
	if r[column] == "" {
		return without
	}
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	return x
}

// check compares with a published or documented value.
func check(t *testing.T, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g (%s)", call, got, want, tol, source)
	}
}

// mustNew returns the curve through the points, which must be good.
func mustNew(t testing.TB, q, p []float64) Curve {
	t.Helper()
	c, err := New(q, p)
	if err != nil {
		t.Fatal(err)
	}
	return c
}
