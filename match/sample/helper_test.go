package sample

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
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
	f := &catalog.Fan{Maker: "Test"}
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

const (
	frame60 = " kind=axial width_mm=60 height_mm=60 voltage_v=12 supply=dc "
	// noisy is the fitted fan of these tests.
	noisy = "part=NOISY airflow_m3h=48 static_pressure_pa=120 noise_dba=43 speed_rpm=5600" + frame60
	// calm and strong are candidates: the first moves what is needed with little to
	// spare, the second with much.
	calm   = "part=CALM airflow_m3h=51 static_pressure_pa=126 noise_dba=36 speed_rpm=4800 pwm=yes" + frame60
	strong = "part=STRONG airflow_m3h=70 static_pressure_pa=220 noise_dba=47 speed_rpm=7500 pwm=yes" + frame60
)

// byHeat is a heat balance of some 30 m³/h.
func byHeat() match.Way {
	return match.Way{Method: resistance.ByHeat, Heat: match.Heat{Power: 90, AirRise: 9}}
}

func byFlow(m3h float64) match.Way {
	return match.Way{Method: resistance.ByFlow, Flow: quantity.Flow(m3h) * quantity.CubicMetrePerHour}
}

func requestFor(t fataler, way match.Way) match.Request {
	fitted := fanOf(t, noisy)
	return match.Request{Path: match.Path{Fitted: fitted, Row: match.NotInCatalogue, Seat: match.SeatOf(fitted), Way: way,
		SpeedNow: match.Speed{Ratio: quantity.Stated(1.0)}}}
}

func rankOf(t testing.TB, req match.Request, o Options, fans ...*catalog.Fan) *Ranking {
	t.Helper()
	r, err := Rank(context.Background(), catalog.ColumnsOf(fans...), req, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// of gives what is said of a row, and its place.
func (r *Ranking) of(t testing.TB, row int) (int, *Sure) {
	t.Helper()
	for i := range r.Candidates {
		if r.Candidates[i].Row == row {
			return i, r.Sure[i]
		}
	}
	t.Fatalf("row %d is not in the ranking: rejected %v", row, r.Rejected)
	return 0, nil
}

// studyOf makes a request ready and draws its device.
func studyOf(t testing.TB, req match.Request, fans ...*catalog.Fan) (*match.Study, *devices) {
	t.Helper()
	study, err := looked(context.Background(), catalog.ColumnsOf(fans...), req, len(fans)+1, 0)
	if err != nil {
		t.Fatal(err)
	}
	d, err := drawDevices(study, defaultDraws, 0)
	if err != nil {
		t.Fatal(err)
	}
	return study, d
}

// check compares with a value that is known.
func check(t testing.TB, call string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) && !(math.IsInf(want, 1) && math.IsInf(got, 1)) && !(math.IsNaN(want) && math.IsNaN(got)) {
		t.Errorf("%s = %v, want %v ± %v (%s)", call, got, want, tol, source)
	}
}

func text(r *Ranking) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%+v %+v %+v %+v\n", r.Air, r.Causes, r.Advice, r.Draws)
	for i, s := range r.Sure {
		fmt.Fprintf(&b, "%d %+v\n", r.Candidates[i].Row, s)
	}
	return b.String()
}
