package match

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

func explainOf(t *testing.T, req Request, row int, fans ...*catalog.Fan) *Explanation {
	t.Helper()
	e, err := Explain(context.Background(), catalog.ColumnsOf(fans...), req, row)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func step(t *testing.T, e *Explanation, title string) Step {
	t.Helper()
	for _, s := range e.Steps {
		if s.Title == title {
			return s
		}
	}
	t.Fatalf("no step %q in %+v", title, e.Steps)
	return Step{}
}

// The explanation's figures are the ranking's own.
func TestExplainIsTheRanking(t *testing.T) {
	fan := fanOf(t, "part=Q"+frame60+"airflow_m3h=50 static_pressure_pa=110 noise_dba=46 noise_kind=power speed_rpm=4800 price=9.5 currency=EUR")
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(28))
	req.Need.Share, req.Listener = 0.9, 1.5*quantity.Metre
	c := candidateOf(t, rankOf(t, req, fan), 0)
	e := explainOf(t, req, 0, fan)
	if want := fmt.Sprintf("ranked %d of 2", c.Rank); !strings.HasPrefix(e.Outcome, want) {
		t.Errorf("outcome %q, want %q…", e.Outcome, want)
	}
	for title, want := range map[string]string{
		"its level at 1 m":               "35.0 dB(A)", // 46 − 11
		"speed that just gives the need": Plain(100*c.Matched.Ratio) + " % of rated speed",
		"level at the needed flow":       fmt.Sprintf("%.1f dB(A)", c.Matched.Level.DB),
		"full speed here":                Plain(m3h(c.Full.Q)) + " m³/h at " + Plain(c.Full.P) + " Pa",
		"loudness":                       fmt.Sprintf("%.2f sone, %.1f phon; %.2f to %.2f sone by other typical spectra of axial fans", c.Loud.Sone, c.Loud.Phon, c.Loud.Low, c.Loud.High),
		"order":                          fmt.Sprintf("rank %d of 2", c.Rank),
	} {
		if got := step(t, e, title).Result; got != want {
			t.Errorf("step %q gives %q, the ranking has %q", title, got, want)
		}
	}
}

func TestExplainLeftOut(t *testing.T) {
	fans := []*catalog.Fan{
		fanOf(t, "part=BIG kind=axial width_mm=80 height_mm=80 airflow_m3h=50 static_pressure_pa=60 noise_dba=30"),
		fanOf(t, "part=WEAK"+frame60+"airflow_m3h=20 static_pressure_pa=20 noise_dba=18"),
		fanOf(t, "part=BARE"+frame60+"airflow_m3h=40"),
		fanOf(t, "part=GONE"+frame60+"airflow_m3h=48 static_pressure_pa=120 noise_dba=35"),
	}
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(28))
	req.Exclude = []string{"gone"}
	for row, want := range []string{"left out: frame: frame 80 × 80 mm, the seat has 60 mm", "left out: too weak: ", "left out: no curve", "left out: excluded by name"} {
		if got := explainOf(t, req, row, fans...).Outcome; !strings.HasPrefix(got, want) {
			t.Errorf("row %d: %q, want %q…", row, got, want)
		}
	}
	if got := explainOf(t, req, NotInCatalogue, fans...).Outcome; !strings.HasPrefix(got, "ranked 1 of 1") {
		t.Errorf("the fitted fan: %q", got)
	}
}
