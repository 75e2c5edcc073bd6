package match

import (
	"context"
	"math"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/resistance"
)

// fataler is what *testing.T and *rapid.T have in common here.
type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// fanOf builds a fan from FIELD=VALUE pairs as the tool's own CSV writes them.
func fanOf(t fataler, pairs string) *catalog.Fan {
	t.Helper()
	f := &catalog.Fan{}
	for _, pair := range strings.Fields(pairs) {
		name, text, _ := strings.Cut(pair, "=")
		d, ok := catalog.FieldNamed(name)
		if !ok {
			t.Fatalf("no field %q", name)
		}
		v, err := d.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		d.Put(f, v, quantity.Cell)
	}
	f.FillFromCurve()
	return f
}

const frame60 = " kind=axial width_mm=60 height_mm=60 depth_mm=25 hole_pitch_mm=50 voltage_v=12 supply=dc leads=3 tach_per_rev=2 current_a=0.2 "

// loud is the fitted fan of these tests; quieter ones share its frame.
const loud = "part=LOUD maker=Test" + frame60 + "airflow_m3h=48 static_pressure_pa=120 noise_dba=43 speed_rpm=5600"

func requestFor(fitted *catalog.Fan, row int, way Way) Request {
	return Request{Path: Path{Fitted: fitted, Row: row, Seat: SeatOf(fitted), Way: way}}
}

func byFlow(m3h float64) Way {
	return Way{Method: resistance.ByFlow, Flow: quantity.Flow(m3h) * quantity.CubicMetrePerHour}
}

func rankOf(t testing.TB, req Request, fans ...*catalog.Fan) *Ranking {
	t.Helper()
	r, err := Rank(context.Background(), catalog.ColumnsOf(fans...), req)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func candidateOf(t testing.TB, r *Ranking, row int) Candidate {
	t.Helper()
	for _, c := range r.Candidates {
		if c.Row == row {
			return c
		}
	}
	t.Fatalf("row %d is not in the ranking: rejected %v, unrankable %v", row, r.Rejected, r.Unrankable)
	return Candidate{}
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol*math.Max(1, math.Abs(b)) }

func m3h(q float64) float64 { return float64(quantity.Flow(q) / quantity.CubicMetrePerHour) }
