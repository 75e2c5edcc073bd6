package loudness

import (
	"math"
	"strconv"
	"testing"

	"lowsone/acoustics"
	"lowsone/testdata/sources"
)

type record map[string]string

func records(t testing.TB, name string) []record {
	t.Helper()
	return sources.Records[record](t, name)
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("no number: %v", err)
	}
	return v
}

// thirdsOf reads a row that has a column for each band.
func thirdsOf(t testing.TB, r record) (l acoustics.Thirds) {
	t.Helper()
	for i, hz := range acoustics.ThirdNominal {
		l[i] = number(t, r[strconv.FormatFloat(hz, 'g', -1, 64)])
	}
	return l
}

// rowsBy reads a file, each row by the column that names it.
func rowsBy(t testing.TB, file, column string) map[string]record {
	t.Helper()
	by := map[string]record{}
	for _, r := range records(t, file) {
		by[r[column]] = r
	}
	return by
}

func levelsOf(t testing.TB, name string) acoustics.Thirds {
	t.Helper()
	r, ok := rowsBy(t, "sound_iso532_1_levels.csv", "case")[name]
	if !ok {
		t.Fatalf("no levels of %s", name)
	}
	return thirdsOf(t, r)
}

// fans reads the spectra of fans, each at 40 dB(A).
func fans(t testing.TB) map[string]acoustics.Thirds {
	t.Helper()
	all := map[string]acoustics.Thirds{}
	for _, r := range records(t, "sound_fan_spectra.csv") {
		all[r["spectrum"]] = thirdsOf(t, r)
	}
	return all
}

func check(t testing.TB, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %v ± %.2g (%s)", call, got, want, tol, source)
	}
}
