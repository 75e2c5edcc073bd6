package partscsv

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// A column of consumption holds currents and powers: each cell is read by its
// own unit, one without by what fits the air of its row.
func TestConsumption(t *testing.T) {
	const head = "Modelo|Tamaño|Tensión V|Caudal m³/h|Presión Pa|Consumo\n"
	tests := []struct{ name, rows, want, warning string }{
		{"its own units", "A1|80|12|55|31|0,16 A\nA2|80|12|55|31|1,9 W", "current_a=0.16;power_w=1.9", ""},
		{"both in one cell", "A1|80|12|55|31|0,16 A (1,9 W)\nA2|80|12|55|31|0,2 A / 2,4 W", "current_a=0.16 power_w=1.9;current_a=0.2 power_w=2.4", ""},
		{"milliamperes", "A1|80|12|55|31|160 mA\nA2|80|12|55|31|1,9 W", "current_a=0.16;power_w=1.9", ""},
		{"a bare current among powers", "A1|80|12|55|31|1,9 W\nA2|80|24|55|31|2 W\nA3|80|12|55|31|0,16", "power_w=1.9;power_w=2;current_a=0.16", "read as a current"},
		{"a bare power among currents", "A1|80|12|55|31|0,16 A\nA2|80|24|55|31|0,1 A\nA3|80|12|55|31|1,9", "current_a=0.16;current_a=0.1;power_w=1.9", "read as a power"},
		{"a bare one whose row does not tell", "A1|80|12|55|31|0,16 A\nA2|80|24|55|31|0,1 A\nA3|80|12|||0,2", "current_a=0.16;current_a=0.1;current_a=0.2", ""},
		{"nor do the others", "A1|80|12|55|31|0,16 A\nA2|80|24|55|31|2 W\nA3|80|12|||0,2", "current_a=0.16;power_w=2;", "nothing tells a current from a power"},
		{"all bare currents", "A1|80|12|55|31|0,16\nA2|80|24|55|31|0,1\nA3|80|12|||0,2", "current_a=0.16;current_a=0.1;current_a=0.2", ""},
		{"all bare powers", "A1|80|12|55|31|1,9\nA2|80|24|55|31|2\nA3|80|12|||3", "power_w=1.9;power_w=2;power_w=3", ""},
		{"all bare, and nothing tells", "A1|80|12|||1,9\nA2|80|24|||2", ";", "nothing tells a current from a power"},
	}
	for _, test := range tests {
		p, rows := planOf(t, tabular.Comma, head+test.rows)
		r := p.Reader()
		var got []string
		warnings := ""
		for _, row := range rows {
			fan, remarks, err := r.Read(row)
			if err != nil {
				t.Fatalf("%s: %v", test.name, err)
			}
			got = append(got, drawOf(fan))
			for _, m := range remarks {
				warnings += m.Warning
			}
		}
		if text := strings.Join(got, ";"); text != test.want || (test.warning == "") != (warnings == "") || !strings.Contains(warnings, test.warning) {
			t.Errorf("%s: %q, warnings %q, want %q, %q", test.name, text, warnings, test.want, test.warning)
		}
	}
}

// Where a column says current, bare cells of "consumption" are powers.
func TestConsumptionBesideCurrent(t *testing.T) {
	p, rows := planOf(t, tabular.Point, "Model|Size|Voltage V|Current A|Consumption\nA1|80|12|0.16|1.9\nA2|80|24|0.1|2.4")
	fan, _, err := p.Reader().Read(rows[0])
	if err != nil {
		t.Fatal(err)
	}
	if got, want := drawOf(fan), "current_a=0.16 power_w=1.9"; got != want {
		t.Errorf("beside a current the consumption is read as %q, want %q", got, want)
	}
}

func drawOf(f *catalog.Fan) string {
	var kept []string
	for _, part := range strings.Fields(said(f)) {
		if strings.HasPrefix(part, "current_a=") || strings.HasPrefix(part, "power_w=") {
			kept = append(kept, part)
		}
	}
	return strings.Join(kept, " ")
}

// A fan of usual air share is never taken for the other, whatever its voltage.
func TestFittingNeverExchanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := rapid.Float64Range(0.005, 20).Draw(t, "air power")
		volts := rapid.SampledFrom([]float64{5, 12, 24, 48, 115, 230}).Draw(t, "V")
		watts := air / usualAirShare(air) * rapid.Float64Range(0.5, 2).Draw(t, "off by")
		f := &catalog.Fan{Airflow: quantity.Stated(quantity.Flow(0.01)), StaticPressure: quantity.Stated(quantity.Pressure(400 * air)), Voltage: quantity.Stated(quantity.Voltage(volts))}
		for id, number := range map[catalog.FieldID]float64{catalog.FieldPower: watts, catalog.FieldCurrent: watts / volts} {
			d := bareDraw{number: number}
			if got := d.fitting(f); got != id && got != 0 {
				t.Fatalf("fitting(%v of a fan with %v W of air at %v V) = %s, want %s or neither", number, air, volts, catalog.Fields[got].Name, catalog.Fields[id].Name)
			}
		}
	})
}

// Where both readings are likely, or none is, the row does not tell.
func TestFittingDoubts(t *testing.T) {
	tests := []struct {
		name               string
		air, volts, number float64
		want               catalog.FieldID
	}{
		{"a strong fan of 36 W, or of 36 A", 10.4, 12, 36, 0},
		{"a small one of 0.16 A", 0.046, 12, 0.16, catalog.FieldCurrent},
		{"a mains fan of 19 W", 0.74, 230, 19, catalog.FieldPower},
		{"neither", 0.1, 12, 2000, 0},
		{"less than nothing", 0.1, 12, -1, 0},
	}
	for _, test := range tests {
		f := &catalog.Fan{Airflow: quantity.Stated(quantity.Flow(0.01)), StaticPressure: quantity.Stated(quantity.Pressure(400 * test.air)), Voltage: quantity.Stated(quantity.Voltage(test.volts))}
		d := bareDraw{number: test.number}
		if got := d.fitting(f); got != test.want {
			t.Errorf("%s: fitting = %d, want %d", test.name, got, test.want)
		}
	}
}
