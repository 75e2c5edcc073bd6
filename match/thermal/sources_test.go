package thermal

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"lowsone/testdata/sources"
)

// record is one row of a file of published values, by column name.
type record map[string]string

// records reads a file of published values; with its first column as the key.
func records(t *testing.T, name string) map[string]record {
	t.Helper()
	all := map[string]record{}
	key := sources.Rows(t, name)[0][0]
	for _, r := range sources.Records[record](t, name) {
		all[r[key]] = r
	}
	return all
}

// printed returns a published number and half a unit of its last digit.
func printed(t *testing.T, text string) (value, half float64) {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("published value %q: %v", text, err)
	}
	_, decimals, _ := strings.Cut(text, ".")
	return value, 0.5*math.Pow10(-len(decimals)) + 1e-12
}

// has fails unless the row still holds the text its test was written for.
func (r record) has(t *testing.T, column string, texts ...string) {
	t.Helper()
	for _, text := range texts {
		if !strings.Contains(r[column], text) {
			t.Fatalf("column %s holds %q, without %q", column, r[column], text)
		}
	}
}

func check(t *testing.T, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.8g, want %.8g ± %.2g (%s)", call, got, want, tol, source)
	}
}
