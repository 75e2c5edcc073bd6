package intake

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
)

// The lists of testdata/csv, each with the fans and rejects that a person reads
// in it. An estimate is marked with ~.
func TestLists(t *testing.T) {
	for _, l := range lists {
		t.Run(l.file, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "catalogue")
			file := filepath.Join("..", "..", "testdata", "csv", l.file)
			a, err := Run(context.Background(), Options{File: file, Catalog: dir})
			if err != nil {
				t.Fatal(err)
			}
			if a.Rows != a.Imported+a.Rejected+a.Repeated {
				t.Errorf("%d rows are not %d imported, %d rejected and %d repeated", a.Rows, a.Imported, a.Rejected, a.Repeated)
			}
			if diff := cmp.Diff(l.fans, readBack(t, dir)); diff != "" {
				t.Errorf("fans (-want +got):\n%s", diff)
			}
			var rejects []string
			for _, r := range a.Rejects {
				rejects = append(rejects, fmt.Sprintf("%d:%d: %q: %s", r.At.Line, r.At.Column, r.Header, r.Reason))
			}
			if diff := cmp.Diff(l.rejects, rejects); diff != "" {
				t.Errorf("rejects (-want +got):\n%s", diff)
			}
		})
	}
}

// readBack lists what the fans of a catalogue say, by row.
func readBack(t *testing.T, dir string) []string {
	t.Helper()
	ctx := context.Background()
	c, err := store.Open(ctx, dir)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	var list []string
	for row := range c.Info().Rows {
		f, err := c.Fan(row)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, said(f))
	}
	return list
}

// said writes what a fan says, numbers to four digits.
func said(f *catalog.Fan) string {
	var parts []string
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		v, origin := d.Get(f)
		if origin == quantity.Unknown {
			continue
		}
		text := d.Format(f)
		if d.Numeric() {
			text = strings.TrimSuffix(fmt.Sprintf("%.4g", d.InUnit(v.Number)), ".0")
			if x := d.InUnit(v.Number); x >= 1e4 {
				text = fmt.Sprintf("%.0f", x)
			}
		}
		if origin == quantity.Estimate {
			text += "~"
		}
		parts = append(parts, d.Name+"="+text)
	}
	return strings.Join(parts, " ")
}

var lists = []struct {
	file    string
	fans    []string
	rejects []string
}{
	{
		file: "german_cp1252.csv",
		fans: []string{
			"part=WS 6025-12 L kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 voltage_min_v=7 voltage_max_v=13.8 supply=dc current_a=0.085 airflow_m3h=23.5 static_pressure_pa=28.4 speed_rpm=3000 noise_dba=24 noise_kind=pressure bearing=Gleit life_h=30000 life_temp_c=40 price=4.85 currency=EUR order_code=4711-01",
			"part=WS 6025-12 H kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 voltage_min_v=7 voltage_max_v=13.8 supply=dc current_a=0.21 airflow_m3h=40 static_pressure_pa=75 speed_rpm=5200 noise_dba=39 noise_kind=pressure bearing=Kugel life_h=50000 life_temp_c=40 price=5.2 currency=EUR order_code=4711-02",
			"part=WS 8038-230 kind=axial width_mm=80 height_mm=80 depth_mm=38 voltage_v=230 supply=ac frequency_hz=50 airflow_m3h=52 static_pressure_pa=48 speed_rpm=2650 noise_dba=31 noise_kind=pressure bearing=Kugel life_h=37500 life_temp_c=25 price=18.9 currency=EUR order_code=4711-03",
			"part=WS R97 kind=centrifugal width_mm=97 height_mm=94 depth_mm=33 voltage_v=24 voltage_min_v=12 voltage_max_v=28 supply=dc current_a=0.55 airflow_m3h=61.2 static_pressure_pa=260 speed_rpm=4000 noise_dba=52 noise_kind=pressure bearing=Kugel price=29 currency=EUR order_code=4711-04",
			"part=WS 4010-5 kind=axial width_mm=40 height_mm=40 depth_mm=10 voltage_v=5 voltage_min_v=4.5 voltage_max_v=5.5 supply=dc current_a=0.12 airflow_m3h=9.8 static_pressure_pa=22 speed_rpm=5800 noise_dba=21.5 noise_kind=pressure bearing=Gleit life_h=30000 price=3.1 currency=EUR order_code=4711-06",
		},
		rejects: []string{
			`9:61: "Volumenstrom [m³/h]": 0 m³/h is outside the possible 0.01 to 200000`,
			`11:15: "Bauart": no kind of fan is known by this name`,
		},
	},
	{
		file: "french.csv",
		fans: []string{
			"part=VL-120-A maker=Ventolune kind=axial width_mm=120 height_mm=120 depth_mm=38 voltage_v=230 supply=ac power_w=19 frequency_hz=50 airflow_m3h=152 static_pressure_pa=70 speed_rpm=2650 noise_dba=44.5 noise_distance_m=1 temp_max_c=70 price=24.5 currency=EUR",
			"part=VL-120-B maker=Ventolune kind=axial width_mm=120 height_mm=120 depth_mm=25 voltage_v=12 supply=dc power_w=3.4 airflow_m3h=128.5 static_pressure_pa=42 speed_rpm=2200 noise_dba=36 temp_max_c=70 price=9.9 currency=EUR",
			"part=VL-C180 maker=Ventolune kind=centrifugal width_mm=180 height_mm=160 depth_mm=80 voltage_v=24 voltage_min_v=16 voltage_max_v=28 supply=dc power_w=46 airflow_m3h=310 static_pressure_pa=520 speed_rpm=3400 noise_dba=68 noise_kind=power temp_max_c=60 price=1120 currency=EUR",
			"part=VL-T300 maker=Ventolune kind=crossflow width_mm=300 height_mm=45 depth_mm=48 voltage_v=24 supply=dc power_w=11 airflow_m3h=125 speed_rpm=1900 noise_dba=38 temp_max_c=60",
		},
		rejects: []string{
			`7:53: "Niveau sonore": 0 dB(A) is outside the possible 10 to 130`,
		},
	},
	{
		file: "spanish.tsv",
		fans: []string{
			"part=SR-60 maker=Sirocal kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 leads=2 airflow_m3h=23.5 static_pressure_pa=28 speed_rpm=3000 noise_dba=24 bearing=casquillo price=4.75 currency=EUR order_code=70011 stock=1200",
			"part=SR-60P maker=Sirocal kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 leads=4 pwm=yes airflow_m3h=40.8 static_pressure_pa=75 speed_rpm=5200 noise_dba=38 bearing=bolas price=6.1 currency=EUR order_code=70012 stock=0",
			"part=SR-C75 maker=Sirocal kind=centrifugal width_mm=75 height_mm=75 depth_mm=30 voltage_v=24 leads=2 airflow_m3h=18 static_pressure_pa=166.7 speed_rpm=4500 noise_dba=46 bearing=bolas order_code=70013 stock=1",
			"part=SR-92 maker=Sirocal kind=axial width_mm=92 height_mm=92 depth_mm=25 voltage_v=12 leads=3 tach_per_rev=2~ airflow_m3h=68 static_pressure_pa=36 speed_rpm=2600 noise_dba=33 bearing=bolas price=5.95 currency=EUR order_code=70014 stock=85",
		},
		rejects: []string{
			`6:43: "Caudal": contradicts itself: 68 m³/h and 101.9 m³/h`,
		},
	},
	{
		file: "us.csv",
		fans: []string{
			"part=GB-236-12M maker=Gale Brook kind=axial width_mm=60.32 height_mm=60.32 depth_mm=25.4 voltage_v=12 supply=dc current_a=0.09 leads=2 connector=2 leads airflow_m3h=23.45 static_pressure_pa=28.4 speed_rpm=3000 noise_dba=24 bearing=Sleeve price=4.8 currency=USD stock=1250",
			"part=GB-236-12H maker=Gale Brook kind=axial width_mm=60.32 height_mm=60.32 depth_mm=25.4 voltage_v=12 supply=dc current_a=0.21 leads=3 connector=3 leads - tach tach_per_rev=2~ airflow_m3h=40.78 static_pressure_pa=74.98 speed_rpm=5200 noise_dba=38 bearing=Ball price=5.25 currency=USD stock=300",
			"part=GB-469-115 maker=Gale Brook kind=axial width_mm=119.1 height_mm=119.1 depth_mm=38.1 voltage_v=115 supply=ac current_a=0.21 connector=Terminals frequency_hz=60 airflow_m3h=178.4 static_pressure_pa=77.22 speed_rpm=3100 noise_dba=44 noise_kind=power bearing=Ball price=19.1 currency=USD stock=0",
			"part=GB-315-24 maker=Gale Brook kind=centrifugal width_mm=80.01 height_mm=80.01 depth_mm=29.97 voltage_v=24 voltage_min_v=12 voltage_max_v=28 supply=dc current_a=0.55 leads=2 connector=2 leads airflow_m3h=61.16 static_pressure_pa=259.1 speed_rpm=4000 noise_dba=52 bearing=Ball price=29 currency=USD stock=1",
		},
		rejects: []string{
			`6:70: "Max Airflow (CFM)": "4,0", read with a decimal point: digits are not grouped by three`,
		},
	},
	{
		file: "sheet_utf16.csv",
		fans: []string{
			"part=Ōkaze 60M kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 airflow_m3h=23.5 static_pressure_pa=28 speed_rpm=3000 noise_dba=24 temp_max_c=70",
			"part=Ōkaze 60H kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 airflow_m3h=40.8 static_pressure_pa=75 speed_rpm=5200 noise_dba=38 temp_max_c=70 description=loud",
			"part=Ōkaze B75 kind=centrifugal width_mm=75 height_mm=75 depth_mm=30 voltage_v=24 airflow_m3h=18 static_pressure_pa=167 speed_rpm=4500 noise_dba=46 temp_max_c=60",
			"part=Ōkaze 40 kind=axial width_mm=40 height_mm=40 depth_mm=10 voltage_v=5 airflow_m3h=9.854 static_pressure_pa=22 speed_rpm=5800 noise_dba=21.5 temp_max_c=70 description=only CFM",
		},
		rejects: []string{
			`5:34: "Airflow (2)": contradicts itself: 40.8 m³/h and 71.36 m³/h`,
		},
	},
	{
		file: "own.csv",
		fans: []string{
			"part=HF60-30 maker=Halmfeld kind=axial width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 voltage_min_v=7 voltage_max_v=13.8 supply=dc leads=3 tach_per_rev=2 pwm=no airflow_m3h=23.5 static_pressure_pa=28 curve=0:28;10:18;23.5:0 speed_rpm=3000 noise_dba=24 noise_kind=pressure noise_distance_m=1 life_h=30000 life_temp_c=40 temp_max_c=70 price=4.85 currency=EUR stock=1250 description=quiet, with tach",
			"part==HF1 maker=Halmfeld kind=crossflow width_mm=300 height_mm=45 depth_mm=48 voltage_v=24 supply=dc leads=2 tach_per_rev=0 pwm=no airflow_m3h=125 speed_rpm=1900 noise_dba=38 noise_kind=pressure noise_distance_m=1 temp_max_c=60 description=-spare part",
			"part=HF97 maker=Halmfeld kind=centrifugal width_mm=97 height_mm=94 depth_mm=33 voltage_v=24 voltage_min_v=12 voltage_max_v=28 supply=dc leads=4 tach_per_rev=2 pwm=yes airflow_m3h=61.2 static_pressure_pa=260 speed_rpm=4000 noise_dba=68 noise_kind=power price=31 currency=EUR stock=5",
		},
		rejects: []string{
			`6:14: "kind": no kind of fan is known by this name`,
		},
	},
	{
		file: "swiss_bar.csv",
		fans: []string{
			"part=LW-1238 maker=Luvwerk width_mm=120 height_mm=120 depth_mm=38 voltage_v=24 tach_per_rev=2~ airflow_m3h=180 static_pressure_pa=95 speed_rpm=2800 noise_dba=45 noise_kind=pressure noise_distance_m=1 life_h=70000 price=32.4 currency=CHF",
			"part=LW-0925 maker=Luvwerk width_mm=92 height_mm=92 depth_mm=25 voltage_v=12 tach_per_rev=0 airflow_m3h=68.5 static_pressure_pa=36 speed_rpm=2600 noise_dba=33 noise_kind=pressure noise_distance_m=1 life_h=70000 price=1024 currency=CHF",
			"part=LW-1225 maker=Luvwerk width_mm=120 height_mm=120 depth_mm=25 voltage_v=12 tach_per_rev=2~ pwm=yes airflow_m3h=128 static_pressure_pa=42 speed_rpm=2200 noise_dba=36 noise_kind=pressure noise_distance_m=1 price=12.9 currency=CHF",
		},
		rejects: []string{
			`5:32: "Lp [dB(A)] 1m": 2.6 dB(A) is outside the possible 10 to 130`,
		},
	},
}
