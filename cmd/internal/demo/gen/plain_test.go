package gen

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"
)

func plain(t *testing.T, specs []Spec) []map[string]string {
	t.Helper()
	var out bytes.Buffer
	if err := WritePlain(&out, specs); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(all[0], ","); got != plainHeader {
		t.Fatalf("header = %s, want %s", got, plainHeader)
	}
	var rows []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, cell := range cells {
			row[all[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

// designColumns are the tool's columns as its design names them, written down here a second time on purpose.
var designColumns = strings.Fields(`part maker kind width_mm height_mm depth_mm hole_pitch_mm voltage_v voltage_min_v voltage_max_v supply current_a
	power_w leads connector tach_per_rev pwm start_voltage_v frequency_hz airflow_m3h static_pressure_pa curve speed_rpm noise_dba noise_kind
	noise_distance_m blades bearing life_h life_temp_c temp_max_c price currency supplier order_code stock description`)

func TestPlainColumns(t *testing.T) {
	if got, want := plainHeader, strings.Join(designColumns, ","); got != want {
		t.Errorf("columns = %s, want %s", got, want)
	}
}

func TestPlainReadsBack(t *testing.T) {
	specs := many()
	rows := plain(t, specs)
	if len(rows) != len(specs) {
		t.Fatalf("%d rows, want %d", len(rows), len(specs))
	}
	for i, s := range specs {
		row := rows[i]
		for column, want := range map[string]string{"part": s.Part, "maker": s.Maker, "kind": s.Kind, "supply": s.Supply, "connector": s.Connector,
			"pwm": s.PWM, "noise_kind": s.NoiseKind, "bearing": s.Bearing, "currency": s.Currency, "supplier": s.Supplier,
			"order_code": s.OrderCode, "description": s.Description} {
			if row[column] != want {
				t.Errorf("%s: %s = %q, want %q", s.Part, column, row[column], want)
			}
		}
		for column, want := range map[string]Number{"width_mm": s.WidthMM, "height_mm": s.HeightMM, "depth_mm": s.DepthMM,
			"hole_pitch_mm": s.HolePitchMM, "voltage_v": s.VoltageV, "voltage_min_v": s.VoltageMinV, "voltage_max_v": s.VoltageMaxV,
			"current_a": s.CurrentA, "power_w": s.PowerW, "leads": s.Leads, "tach_per_rev": s.TachPerRev, "start_voltage_v": s.StartVoltageV,
			"frequency_hz": s.FrequencyHz, "airflow_m3h": s.AirflowM3h, "static_pressure_pa": s.StaticPressurePa, "speed_rpm": s.SpeedRPM,
			"noise_dba": s.NoiseDBA, "noise_distance_m": s.NoiseDistanceM, "blades": s.Blades, "life_h": s.LifeH, "life_temp_c": s.LifeTempC,
			"temp_max_c": s.TempMaxC, "price": s.Price, "stock": s.Stock} {
			got, err := strconv.ParseFloat(row[column], 64)
			if want.Known != (row[column] != "") || want.Known && (err != nil || got != want.Value) {
				t.Errorf("%s: %s = %q, want %+v", s.Part, column, row[column], want)
			}
			if len(row[column]) > 8 {
				t.Errorf("%s: %s = %q has too many digits for a label", s.Part, column, row[column])
			}
		}
		if row["curve"] != "" && strings.Count(row["curve"], ":") != knots || (row["curve"] == "") != (len(s.Curve) == 0) {
			t.Errorf("%s: curve %q of %d points", s.Part, row["curve"], len(s.Curve))
		}
	}
}

// broken is a disk that is full after some bytes.
type broken struct{ left int }

var errFull = errors.New("disk full")

func (b *broken) Write(p []byte) (int, error) {
	if b.left -= len(p); b.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestWritersReportAFullDisk(t *testing.T) {
	specs := many()
	for _, left := range []int{0, 100_000} {
		if err := WritePlain(&broken{left}, specs); !errors.Is(err, errFull) {
			t.Errorf("WritePlain on a disk of %d bytes: %v, want %v", left, err, errFull)
		}
		if _, err := WriteMessy(&broken{left}, specs, 1); !errors.Is(err, errFull) {
			t.Errorf("WriteMessy on a disk of %d bytes: %v, want %v", left, err, errFull)
		}
	}
}

func BenchmarkCatalogue(b *testing.B) {
	const n = 10_000
	for b.Loop() {
		Catalogue(1, n)
	}
	b.ReportMetric(float64(b.N)*n/b.Elapsed().Seconds(), "rows/s")
}

func BenchmarkWritePlain(b *testing.B) {
	specs := Catalogue(1, 10_000)
	for b.Loop() {
		if err := WritePlain(io.Discard, specs); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*float64(len(specs))/b.Elapsed().Seconds(), "rows/s")
}

func BenchmarkWriteMessy(b *testing.B) {
	specs := Catalogue(1, 10_000)
	for b.Loop() {
		if _, err := WriteMessy(io.Discard, specs, 1); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*float64(len(specs))/b.Elapsed().Seconds(), "rows/s")
}
