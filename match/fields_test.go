package match

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// narrow gives fans with the columns alone that are asked for, but for one.
type narrow struct {
	*catalog.Columns
	without catalog.FieldID
	asked   map[catalog.FieldID]bool
	mu      sync.Mutex
}

// nothing is no field: nothing is left out.
const nothing = catalog.NumFields

func (n *narrow) Scan(ctx context.Context, fields []catalog.FieldID, pass func(c *catalog.Columns, begin, end int) error) error {
	n.mu.Lock()
	for _, id := range fields {
		n.asked[id] = true
	}
	n.mu.Unlock()
	fields = slices.DeleteFunc(slices.Clone(fields), func(id catalog.FieldID) bool { return id == n.without })
	return only(*n.Columns, fields).Scan(ctx, fields, pass)
}

// Looking through the columns that are asked for alone finds what looking through
// all of them does, and each of them matters: without it something changes.
func TestFieldsAreWhatRankReads(t *testing.T) {
	fans, req := fieldsCase(t)
	whole := answers(t, catalog.ColumnsOf(fans...), req)
	part := &narrow{Columns: catalog.ColumnsOf(fans...), without: nothing, asked: map[catalog.FieldID]bool{}}
	if diff := cmp.Diff(whole, answers(t, part, req), cmpopts.EquateNaNs()); diff != "" {
		t.Fatalf("a column that Rank reads is not asked for:\n%s", diff)
	}
	for id := range part.asked {
		less := &narrow{Columns: catalog.ColumnsOf(fans...), without: id, asked: map[catalog.FieldID]bool{}}
		if cmp.Equal(whole, answers(t, less, req), cmpopts.EquateNaNs()) {
			t.Errorf("%s is asked for but changes nothing", catalog.Fields[id].Name)
		}
	}
}

// fieldsCase is a small catalogue in which every column tells.
func fieldsCase(t *testing.T) ([]*catalog.Fan, []Request) {
	full := frame60 + "connector=JX power_w=2.4 start_voltage_v=5 temp_max_c=35 pwm=yes voltage_min_v=6 voltage_max_v=13 stock=3 price=9 currency=EUR "
	var fans []*catalog.Fan
	for i := range 6 {
		fans = append(fans, fanOf(t, fmt.Sprintf("part=K%d maker=M%d", i, i%2)+full+fmt.Sprintf("airflow_m3h=%d static_pressure_pa=%d noise_dba=%d speed_rpm=%d", 50+i, 110+i, 36+i, 4600+20*i)))
	}
	fans = append(fans,
		fanOf(t, "part=POWER"+full+"airflow_m3h=52 static_pressure_pa=115 noise_dba=50 noise_kind=power speed_rpm=5000"),
		fanOf(t, "part=NEAR"+full+"airflow_m3h=52 static_pressure_pa=115 noise_dba=42 noise_distance_m=0.5 speed_rpm=5000 price=8 currency=USD"),
		fanOf(t, "part=POINTS"+full+"blades=7 noise_bands=63:41;125:38;250:36;500:35;1000:33;2000:30;4000:25 curve=0:120;20:90;60:0 noise_dba=40 speed_rpm=5000"),
		fanOf(t, "part=RANGE"+full+"voltage_v=14 voltage_min_v=10 voltage_max_v=16 current_a=0.7 airflow_m3h=82 static_pressure_pa=215 noise_dba=50 speed_rpm=5000"),
		fanOf(t, "part=UPTO in_stock=yes kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=10 voltage_max_v=13 supply=dc airflow_m3h=52 static_pressure_pa=115 noise_dba=40"),
		fanOf(t, "part=DRAWS kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=dc power_w=6 airflow_m3h=52 static_pressure_pa=115 noise_dba=40"),
		fanOf(t, "part=HIGH kind=axial width_mm=60 height_mm=55 depth_mm=25 voltage_v=12 supply=dc airflow_m3h=52 static_pressure_pa=115 noise_dba=40"),
		fanOf(t, "part=MAINS kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=ac frequency_hz=60 airflow_m3h=70 static_pressure_pa=180 noise_dba=40"),
	)
	fans = append(fans,
		fanOf(t, "part=DEEP"+full+"depth_mm=38 airflow_m3h=52 static_pressure_pa=115 noise_dba=40"),
		fanOf(t, "part=PITCH"+full+"hole_pitch_mm=71.5 airflow_m3h=52 static_pressure_pa=115 noise_dba=40"),
		fanOf(t, "part=COLD"+full+"temp_max_c=30 airflow_m3h=52 static_pressure_pa=115 noise_dba=40"),
		fanOf(t, "part=BANDS kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=dc airflow_m3h=52 static_pressure_pa=115 noise_bands=63:41;125:38;250:36;500:35;1000:33;2000:30;4000:25"),
		fanOf(t, "part=LONE kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=dc leads=2 airflow_m3h=52 static_pressure_pa=115 noise_dba=40"),
	)
	dc := requestFor(fanOf(t, loud+" connector=JX"), NotInCatalogue, byFlow(25))
	dc.Need.Share, dc.Path.Seat.AirTemp = 0.6, quantity.Stated(quantity.Celsius(32))
	stocked := dc
	stocked.Choice.InStock = true
	ac := dc
	ac.Path.Seat.Supply, ac.Path.Seat.Mains = quantity.Stated(catalog.AC), quantity.Stated(50*quantity.Hertz)
	made := dc
	made.Choice.Maker = "M1"
	pwm := dc
	pwm.Path.Seat.SlowBy, pwm.Need.Share = SlowPWM, 0.4
	slow := dc
	slow.Path.Seat.SlowBy, slow.Need.Share = SlowVoltage, 0.4
	watched := dc
	watched.Path.Seat.Watches, watched.Path.Seat.AlarmSpeed = WatchTach, quantity.Stated(quantity.Speed(4700.0/60))
	pitch := dc
	pitch.Path.Seat.HolePitch = quantity.Stated(quantity.Length(0.05))
	return fans, []Request{dc, stocked, ac, made, pwm, slow, watched, pitch}
}

func answers(t *testing.T, fans catalog.Fans, reqs []Request) []string {
	t.Helper()
	var out []string
	for _, req := range reqs {
		r, err := Rank(context.Background(), fans, req)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range r.Candidates {
			out = append(out, fmt.Sprintf("%+v", c))
		}
		out = append(out, fmt.Sprint(r.Rejected, r.Unrankable, r.TooWeak, r.NotAsked))
		out = append(out, found(t, fans, req))
	}
	return out
}

// found gives the marks that looking through the fans leaves.
func found(t *testing.T, fans catalog.Fans, req Request) string {
	t.Helper()
	p, err := prepare(context.Background(), fans, req)
	if err != nil {
		t.Fatal(err)
	}
	f, err := p.look(context.Background(), wanted{first: 100, weak: 100})
	if err != nil {
		t.Fatal(err)
	}
	slices.SortFunc(f.weak.kept, func(a, b mark) int { return int(a.row - b.row) })
	return fmt.Sprint(f.marks(), f.weak.kept)
}

// only gives the columns with all but the listed fields not loaded.
func only(c catalog.Columns, ids []catalog.FieldID) *catalog.Columns {
	for id := range catalog.NumFields {
		if slices.Contains(ids, id) {
			continue
		}
		c.Numbers[id], c.Codes[id], c.Texts[id] = nil, nil, catalog.Strings{}
		switch id {
		case catalog.FieldCurve:
			c.CurveEnd = nil
		case catalog.FieldNoiseBands:
			c.BandRows = nil
		}
	}
	return &c
}
