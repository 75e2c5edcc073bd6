package loudness

import (
	"errors"
	"math"
	"slices"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"

	"pgregory.net/rapid"
)

// A tabled is a table with what it was made of.
type tabled struct {
	name  string
	field Field
	shape acoustics.Thirds
	table *Table
}

// loudness gives what the table should give.
func (r *tabled) loudness(dbA float64) float64 {
	l := r.shape.ScaledTo(quantity.PressureLevel(dbA))
	return Sone(&l, r.field)
}

// tables makes those of all typical spectra in both fields, and of a tone.
func tables(t testing.TB) (all []tabled) {
	t.Helper()
	shapes := fans(t)
	shapes["tone"] = levelsOf(t, "reference_tone")
	hum := silence()
	hum[3] = 60
	shapes["hum"] = hum
	for name, shape := range shapes {
		for _, f := range []Field{Free, Diffuse} {
			table, err := NewTable(&shape, f)
			if err != nil {
				t.Fatalf("NewTable(%s): %v", name, err)
			}
			all = append(all, tabled{name, f, shape, table})
		}
	}
	slices.SortFunc(all, func(a, b tabled) int { return slices.Compare([]byte(a.name), []byte(b.name)) })
	return all
}

// The table against the loudness itself, every 0.007 dB and beyond the table.
func TestTableIsNear(t *testing.T) {
	for _, r := range tables(t) {
		for db := -20.0; db < 105; db += 0.00717 {
			got, want := r.table.Sone(db), r.loudness(db)
			if math.Abs(got-want) > max(0.001, 0.005*want) {
				t.Fatalf("%s, %v, at %v dB(A): %v sone, want %v", r.name, r.field, db, got, want)
			}
		}
	}
}

func TestTableNeverFalls(t *testing.T) {
	all := tables(t)
	rapid.Check(t, func(t *rapid.T) {
		r := &all[rapid.IntRange(0, len(all)-1).Draw(t, "table")]
		low := rapid.Float64Range(-15, 102).Draw(t, "low")
		high := low + math.Pow(10, rapid.Float64Range(-12, 1).Draw(t, "lg of more"))
		if a, b := r.table.Sone(low), r.table.Sone(high); !(a <= b) || a < 0 {
			t.Fatalf("%s: %v sone at %v, %v at %v dB(A)", r.name, a, low, b, high)
		}
	})
}

// Nor does it fall from one piece to the next, by as little as rounding does.
func TestTableJoints(t *testing.T) {
	for _, r := range tables(t) {
		for _, p := range r.table.pieces {
			if before := r.table.Sone(math.Nextafter(p.from, -100)); before > p.sone {
				t.Errorf("%s: %v sone before %v dB(A), %v there", r.name, before, p.from, p.sone)
			}
		}
	}
}

func TestTableLevel(t *testing.T) {
	all := tables(t)
	rapid.Check(t, func(t *rapid.T) {
		r := &all[rapid.IntRange(0, len(all)-1).Draw(t, "table")]
		sone := math.Pow(10, rapid.Float64Range(-4, 2.8).Draw(t, "lg sone"))
		db := r.table.Level(sone)
		if got := r.table.Sone(db); math.Abs(got-sone) > 1e-6*sone && r.table.Sone(db-finest) >= sone {
			t.Fatalf("%s: Sone(Level(%v)) = Sone(%v) = %v", r.name, sone, db, got)
		}
	})
	table := all[0].table
	for _, r := range []struct{ sone, want float64 }{{0, math.Inf(-1)}, {math.Inf(1), math.Inf(1)}} {
		if got := table.Level(r.sone); got != r.want {
			t.Errorf("Level(%v) = %v, want %v", r.sone, got, r.want)
		}
	}
	for _, sone := range []float64{-1, math.NaN()} {
		if got := table.Level(sone); !math.IsNaN(got) {
			t.Errorf("Level(%v) = %v", sone, got)
		}
	}
}

func TestTableEnds(t *testing.T) {
	for _, r := range tables(t) {
		if got := r.table.compute(tableLow); got != 0 {
			t.Errorf("%s: %v sone at %v dB(A), where the table begins", r.name, got, tableLow)
		}
		if got := r.table.Sone(math.Inf(-1)); got != 0 {
			t.Errorf("Sone(-Inf) = %v", got)
		}
		if got := r.table.Sone(math.Inf(1)); !math.IsInf(got, 1) {
			t.Errorf("Sone(+Inf) = %v", got)
		}
		if got := r.table.Sone(math.NaN()); !math.IsNaN(got) {
			t.Errorf("Sone(NaN) = %v", got)
		}
	}
}

// No single band is heard where the table begins, so no spectrum is.
func TestNothingIsHeardBelowTheTable(t *testing.T) {
	for _, f := range []Field{Free, Diffuse} {
		for band := range acoustics.NumThirds {
			l := silence()
			l[band] = 60
			l = l.ScaledTo(quantity.PressureLevel(tableLow))
			if got := Sone(&l, f); got != 0 {
				t.Errorf("band %d at %v dB(A), %v: %v sone", band, tableLow, f, got)
			}
		}
	}
}

func TestNoTable(t *testing.T) {
	empty := silence()
	if _, err := NewTable(&empty, Free); !errors.Is(err, ErrSilent) {
		t.Errorf("silence: %v", err)
	}
	noise := pinkNoise()
	if _, err := NewTable(&noise, 7); err == nil || err.Error() != `tabulate loudness: "Field(7)" is no sound field` {
		t.Errorf("field 7: %v", err)
	}
	for _, level := range []float64{math.NaN(), math.Inf(1)} {
		l := pinkNoise()
		l[3] = level
		var at *LevelError
		if _, err := NewTable(&l, Free); !errors.As(err, &at) || at.Band != 3 {
			t.Errorf("a level of %v: %v", level, err)
		}
	}
}

// How many dB halve the loudness: ten where people say so, fewer below.
func TestHalving(t *testing.T) {
	for _, r := range tables(t) {
		if r.name == "tone" || r.name == "hum" {
			continue
		}
		for _, h := range []struct{ dbA, want, tol float64 }{
			{60, 10, 0.3}, {50, 8.7, 0.3}, {40, 6.9, 0.3}, {30, 4.7, 0.4}, {20, 2.5, 0.6},
		} {
			got := r.table.Halving(h.dbA)
			check(t, "Halving, "+r.name, got, h.want, h.tol, "pin: our own spread over typical spectra")
			check(t, "half of "+r.name, r.loudness(h.dbA-got), r.loudness(h.dbA)/2, 0.003*r.loudness(h.dbA)+0.001, "definition")
		}
		if got := r.table.Halving(0); !math.IsNaN(got) {
			t.Errorf("Halving(0) = %v, of nothing", got)
		}
	}
}
