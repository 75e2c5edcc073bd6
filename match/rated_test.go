package match

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

func TestLabelsComeToOneFooting(t *testing.T) {
	rows := []struct {
		name, pairs string
		want        float64
	}{
		{"sound power less 11", "noise_dba=45 noise_kind=power", 34},
		{"half a metre", "noise_dba=40 noise_distance_m=0.5", 40 + 20*math.Log10(0.5)},
		{"silent label is 1 m", "noise_dba=34", 34},
	}
	for _, row := range rows {
		g := new(footing).on(catalog.ColumnsOf(fanOf(t, "part=A"+frame60+"airflow_m3h=40 static_pressure_pa=60 "+row.pairs)))
		var r rated
		why := g.rate(0, &r)
		if why != "" || !near(r.level, row.want, 1e-9) {
			t.Errorf("%s: level at 1 m = %v (%s), want %v", row.name, r.level, why, row.want)
		}
	}
}

func TestMains(t *testing.T) {
	nan := math.NaN()
	rows := []struct {
		from, to    float64
		flow, level float64 // common practice: flow 0.85 and -3.5 dB at 50 Hz
	}{
		{60, 50, 0.85, -3.5}, {50, 60, 1 / 0.85, 3.5}, {50, 50, 1, 0},
		{60, nan, 0.85, 0}, {50, nan, 1, 3.5}, {nan, 50, 0.85, 0}, {nan, 60, 1, 3.5}, {nan, nan, 0.85, 3.5},
	}
	for _, r := range rows {
		m := changeMains(r.from, r.to)
		if !m.done {
			m.flow = 1
		}
		if m.flow != r.flow || m.level != r.level {
			t.Errorf("changeMains(%v, %v) = %v, %v dB, want %v, %v dB", r.from, r.to, m.flow, m.level, r.flow, r.level)
		}
	}
}

func TestEstimatesStandBehindEquals(t *testing.T) {
	var fans []*catalog.Fan
	for i := range 6 { // complete fans to learn from
		fans = append(fans, fanOf(t, fmt.Sprintf("part=K%d", i)+frame60+fmt.Sprintf("airflow_m3h=%d static_pressure_pa=%d noise_dba=%d speed_rpm=%d", 40+i, 80+i, 36, 4600+20*i)))
	}
	fans = append(fans, fanOf(t, "part=NOP"+frame60+"airflow_m3h=45 noise_dba=36 speed_rpm=4700"))
	req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(20))
	req.Need.Share = 0.6
	r := rankOf(t, req, fans...)
	c := candidateOf(t, r, 6)
	if !slices.Equal(Names(c.Estimated), []string{"static_pressure_pa"}) {
		t.Fatalf("estimated %v", Names(c.Estimated))
	}
	for _, other := range r.Candidates {
		if other.Row != 6 && other.Rank > c.Rank && math.Round(other.Planned.Level.DB) == math.Round(c.Planned.Level.DB) {
			t.Errorf("row %d without an estimate stands behind one with", other.Row)
		}
	}
	similar := learned(t, catalog.ColumnsOf(fans...))
	p0, _ := similar.pressure(catalog.Axial, 0.06, 4700.0/60, float64(45*quantity.CubicMetrePerHour))
	if p0 < 75 || p0 > 95 {
		t.Errorf("estimated shut-off pressure %v Pa among similar fans of 80 to 85 Pa", p0)
	}
	req.NoEstimates = true
	r = rankOf(t, req, fans...)
	if slices.ContainsFunc(r.Candidates, func(c Candidate) bool { return c.Row == 6 }) || r.Rejected[NotRankable] != 1 {
		t.Errorf("with no estimates the fan must be left out: %v", r.Rejected)
	}
}

func TestNothingIsEstimatedFromTooFewFans(t *testing.T) {
	lone := fanOf(t, "part=NOP"+frame60+"airflow_m3h=45 noise_dba=36 speed_rpm=4700")
	r := rankOf(t, requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25)), lone)
	if r.Rejected[NotRankable] != 1 {
		t.Errorf("rejected %v, unrankable %v", r.Rejected, r.Unrankable)
	}
}

func TestUnstatedSupply(t *testing.T) {
	rows := []struct {
		pairs  string
		device catalog.Supply
		want   catalog.Supply
	}{
		{"voltage_v=12", 0, catalog.DC},
		{"voltage_v=230", 0, 0},
		{"voltage_v=24", catalog.AC, catalog.AC},
		{"", 0, 0},
		{"voltage_v=230 supply=dc", catalog.AC, catalog.DC},
	}
	for _, row := range rows {
		g := (&footing{supply: row.device}).on(catalog.ColumnsOf(fanOf(t, "part=A kind=axial airflow_m3h=40 static_pressure_pa=60 noise_dba=30 "+row.pairs)))
		var r rated
		g.rate(0, &r)
		if r.supply != row.want || r.estimated.count() != 0 && !r.mains.done {
			t.Errorf("%q in a device on %q: %q, estimated %v, want %q", row.pairs, row.device, r.supply, Names(r.estimated.list()), row.want)
		}
	}
}

// A fan of which the levels by band are known, but not the level, has their
// A-weighted sum for one.
func TestLevelOfBands(t *testing.T) {
	const bands = "63:30;125:33;250:36;500:38;1000:36;2000:30;4000:24;8000:18"
	r := rankOf(t, requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25)),
		fanOf(t, "part=BANDS"+frame60+"airflow_m3h=48 static_pressure_pa=120 speed_rpm=5600 noise_bands="+bands),
		fanOf(t, "part=LEVEL"+frame60+"airflow_m3h=48 static_pressure_pa=120 speed_rpm=5600 noise_dba=39.68"))
	byBands, byLevel := candidateOf(t, r, 0), candidateOf(t, r, 1)
	// 39.68 dB(A): the octaves weighted by the table of IEC 61672-1, added by hand.
	if d := byBands.Matched.Level.DB - byLevel.Matched.Level.DB; math.Abs(d) > 0.1 || len(byBands.Estimated) != 0 {
		t.Errorf("level from bands %.2f dB(A), estimated %v, want %.2f and nothing estimated", byBands.Matched.Level.DB, byBands.Estimated, byLevel.Matched.Level.DB)
	}
}
