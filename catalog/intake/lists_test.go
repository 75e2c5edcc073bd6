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
			"part=SR-C75 maker=Sirocal kind=centrifugal width_mm=75 height_mm=75 depth_mm=30 voltage_v=24 leads=2 airflow_m3h=18 static_pressure_pa=166.7 speed_rpm=4500 noise_dba=46 bearing=bolas order_code=70013 in_stock=yes",
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
			"part=GB-315-24 maker=Gale Brook kind=centrifugal width_mm=80.01 height_mm=80.01 depth_mm=29.97 voltage_v=24 voltage_min_v=12 voltage_max_v=28 supply=dc current_a=0.55 leads=2 connector=2 leads airflow_m3h=61.16 static_pressure_pa=259.1 speed_rpm=4000 noise_dba=52 bearing=Ball price=29 currency=USD in_stock=yes",
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
		file: "spectra_german.csv",
		fans: []string{
			"part=TK 6025 L maker=Tiefklang width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 airflow_m3h=23.5 static_pressure_pa=28 noise_dba=24 noise_kind=pressure noise_bands=100:12.15;125:12.6;160:14.15;200:14.37;250:14.93;315:16.51;400:18.51;500:19.03;630:17.6;800:14.92;1000:14.4;1250:12.51;1600:10.82;2000:9.4;2500:8.33;3150:8.7;4000:7.13;5000:5.75;6300:4.42;8000:1.61",
			"part=TK 6025 H maker=Tiefklang width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 airflow_m3h=40.8 static_pressure_pa=75 noise_dba=38.5 noise_bands=100:26.75;125:28.3;160:29.45;200:30.47;250:31.33;315:30.21;400:32.31;500:33.23;630:31.5;800:29.32;1000:28.8;1250:26.51;1600:27.12;2000:25.7;2500:23.63;3150:21.7;4000:21.83;5000:19.65;6300:19.12;8000:17.61",
			"part=TK 8025 maker=Tiefklang width_mm=80 height_mm=80 depth_mm=25 voltage_v=12 airflow_m3h=55 static_pressure_pa=32 noise_dba=29 noise_kind=pressure",
			"part=TK 9238 maker=Tiefklang width_mm=92 height_mm=92 depth_mm=38 voltage_v=24 airflow_m3h=98 static_pressure_pa=110 noise_dba=43 noise_kind=pressure",
			"part=TK 12038 maker=Tiefklang width_mm=120 height_mm=120 depth_mm=38 voltage_v=24 airflow_m3h=150 static_pressure_pa=95 noise_dba=46 noise_kind=pressure",
		},
	},
	{
		file: "spectra_french.csv",
		fans: []string{
			"part=VO-92 maker=Voixdouce width_mm=92 height_mm=92 depth_mm=25 voltage_v=12 supply=dc airflow_m3h=68 static_pressure_pa=36 noise_dba=55 noise_kind=power noise_bands=63:45.2;125:48.2;250:52.2;500:54.1;1000:49.3;2000:46.6;4000:41.8;8000:38.3",
			"part=VO-80 maker=Voixdouce width_mm=80 height_mm=80 depth_mm=25 voltage_v=12 supply=dc airflow_m3h=55 static_pressure_pa=28 noise_dba=46.98 noise_kind=power noise_bands=63:38.5;125:40.7;250:43.7;500:45.3;1000:41.9;2000:39.3;4000:33.8;8000:29",
			"part=VO-C180 maker=Voixdouce width_mm=180 height_mm=180 depth_mm=80 voltage_v=24 supply=dc airflow_m3h=310 static_pressure_pa=520 noise_dba=68 noise_kind=power",
			"part=VO-120 maker=Voixdouce width_mm=120 height_mm=120 depth_mm=38 voltage_v=24 supply=dc airflow_m3h=152 static_pressure_pa=70 noise_dba=57 noise_kind=power noise_bands=63:52.5;125:54.5;250:56.9;500:59.6;1000:56.8;2000:51.5;4000:47.3;8000:44.3",
			"part=VO-60 maker=Voixdouce width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=dc airflow_m3h=24 static_pressure_pa=28 noise_dba=35 noise_kind=power",
			"part=VO-40 maker=Voixdouce width_mm=40 height_mm=40 depth_mm=10 voltage_v=5 supply=dc airflow_m3h=9.8 static_pressure_pa=22 noise_dba=33 noise_kind=power",
		},
	},
	{
		file: "spectra_spanish.tsv",
		fans: []string{
			"part=CD-60 maker=Calladora width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 airflow_m3h=23.5 static_pressure_pa=28 noise_dba=24 noise_kind=pressure noise_distance_m=1 noise_bands=63:14.9;125:19.1;250:19.4;500:22.8;1000:19.4;2000:14.5;4000:11.9;8000:6.7",
			"part=CD-60P maker=Calladora width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 airflow_m3h=40.8 static_pressure_pa=75 noise_dba=44 noise_kind=pressure noise_distance_m=1 noise_bands=63:33.8;125:39.9;250:37.4;500:34.8;1000:33;2000:29.2;4000:23;8000:14.9",
			"part=CD-92 maker=Calladora width_mm=92 height_mm=92 depth_mm=25 voltage_v=12 airflow_m3h=68 static_pressure_pa=36 noise_dba=45 noise_kind=pressure noise_distance_m=1 noise_bands=63:36.1;125:39;250:41.3;500:43.7;1000:39.7;2000:37.2;4000:31.5;8000:27.3",
			"part=CD-80 maker=Calladora width_mm=80 height_mm=80 depth_mm=25 voltage_v=12 airflow_m3h=55 static_pressure_pa=32 noise_dba=31",
		},
	},
	{
		file: "spectra_us.csv",
		fans: []string{
			"part=SH-1238 maker=Softhollow width_mm=120 height_mm=120 depth_mm=38 voltage_v=115 supply=ac airflow_m3h=178.4 static_pressure_pa=77.22 noise_dba=33 noise_kind=pressure noise_distance_m=1 noise_bands=31.5:22.8;63:24.3;125:27.7;250:28.7;500:32.3;1000:27.7;2000:24;4000:19.9;8000:15.3",
			"part=SH-9225 maker=Softhollow width_mm=92 height_mm=92 depth_mm=25 voltage_v=115 supply=ac airflow_m3h=71.36 static_pressure_pa=34.87 noise_dba=25 noise_kind=pressure noise_distance_m=1 noise_bands=31.5:12.9;63:15.6;125:19.6;250:22.1;500:24.5;1000:19.1;2000:15.9;4000:12.2;8000:7.8",
			"part=SH-8025 maker=Softhollow width_mm=80 height_mm=80 depth_mm=25 voltage_v=12 supply=dc airflow_m3h=57.77 static_pressure_pa=29.89 noise_dba=31 noise_kind=pressure noise_distance_m=1 noise_bands=31.5:9.8;63:11.5;125:14.2;250:16.7;500:18.1;1000:15.6;2000:11.7;4000:5.6;8000:3.8",
			"part=SH-17251 maker=Softhollow width_mm=172 height_mm=150 depth_mm=51 voltage_v=230 supply=ac airflow_m3h=390.8 static_pressure_pa=112.1",
		},
	},
	{
		file: "shop_spanish.csv",
		fans: []string{
			"part=AV80-25 12 maker=Aventora width_mm=80 height_mm=80 depth_mm=25 voltage_v=12 current_a=0.16 airflow_m3h=55 static_pressure_pa=31.38 noise_dba=29 noise_bands=63:28;125:32;250:29;500:27;1000:23;2000:19;4000:14;8000:9 price=4.2 currency=EUR order_code=V-1001 in_stock=yes description=Ventilador axial",
			"part=AV80-25 24 maker=Aventora width_mm=80 height_mm=80 depth_mm=25 voltage_v=24 current_a=0.08 airflow_m3h=55 static_pressure_pa=31.38 noise_dba=29 price=4.2 currency=EUR order_code=V-1002 stock=12 description=Ventilador axial",
			"part=AV92-38 H maker=Aventora width_mm=92 height_mm=92 depth_mm=38 voltage_v=12 power_w=5.5 airflow_m3h=110 static_pressure_pa=93.16 noise_dba=44 price=8.9 currency=EUR order_code=V-1003 stock=0 description=Ventilador axial",
			"part=TR120S maker=Tramontor width_mm=120 height_mm=120 depth_mm=38 voltage_v=230 power_w=19 airflow_m3h=150 static_pressure_pa=69.63 noise_dba=45 price=1016 currency=EUR order_code=V-1004 in_stock=yes description=Ventilador axial",
			"part=TR60-25 maker=Tramontor width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 current_a=0.16 airflow_m3h=24 static_pressure_pa=27.46 noise_dba=24 price=3.95 currency=EUR order_code=V-1005 stock=40 description=Ventilador axial",
			"part=TR60-25P maker=Tramontor width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 power_w=3 airflow_m3h=41 static_pressure_pa=74.53 noise_dba=38 price=4.95 currency=EUR order_code=V-1006 stock=0 description=Ventilador axial",
			"part=TR40-10 maker=Tramontor width_mm=40 height_mm=40 depth_mm=10 airflow_m3h=9.5 static_pressure_pa=21.57 noise_dba=22 price=2.8 currency=EUR order_code=V-1007 in_stock=yes description=Ventilador axial",
			"part=AV92-38 X maker=Aventora width_mm=92 height_mm=92 depth_mm=38 voltage_v=12 power_w=5.5 airflow_m3h=110 static_pressure_pa=931.6 noise_dba=44 price=8.9 currency=EUR order_code=V-1008 in_stock=yes description=Ventilador axial",
		},
	},
	{
		file: "shop_french.csv",
		fans: []string{
			"part=SF-8025-M12 maker=Souffleval width_mm=80 height_mm=80 depth_mm=25 voltage_v=12 power_w=1.9 airflow_m3h=58.5 static_pressure_pa=31 noise_dba=30 noise_bands=63:29;125:33;250:30;500:28;1000:24;2000:20;4000:15;8000:10 price=5.1 currency=EUR order_code=200417 in_stock=yes",
			"part=SF-8025-H12 maker=Souffleval width_mm=80 height_mm=80 depth_mm=25 voltage_v=12 power_w=2.6 airflow_m3h=72 static_pressure_pa=45 noise_dba=36 price=5.4 currency=EUR order_code=200418 stock=0",
			"part=Zéphine 120 maker=Zéphine width_mm=120 height_mm=120 depth_mm=38 voltage_v=24 power_w=5.5 airflow_m3h=168 static_pressure_pa=82 noise_dba=44 price=11.2 currency=EUR order_code=200422 in_stock=yes",
			"part=Zéphine 120 AC maker=Zéphine width_mm=120 height_mm=120 depth_mm=38 voltage_v=230 power_w=19 airflow_m3h=152 static_pressure_pa=70 noise_dba=45 price=14.9 currency=EUR order_code=200423 stock=6",
			"part=SF-C97 maker=Souffleval width_mm=97 height_mm=94 depth_mm=33 voltage_v=24 power_w=13.2 airflow_m3h=61 static_pressure_pa=260 noise_dba=52 price=21 currency=EUR order_code=200430",
		},
	},
	{
		file: "shop_german.csv",
		fans: []string{
			"part=KW 6025/12-2 maker=Kesselwind width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=dc current_a=0.085 airflow_m3h=23.5 static_pressure_pa=28 noise_dba=24 noise_kind=pressure noise_bands=63:23;125:27;250:24;500:22;1000:18;2000:14;4000:9;8000:4 price=7.9 currency=EUR order_code=L10021 in_stock=yes",
			"part=KW 6025/12-4 maker=Kesselwind width_mm=60 height_mm=60 depth_mm=25 voltage_v=12 supply=dc current_a=0.21 airflow_m3h=40 static_pressure_pa=75 noise_dba=39 noise_kind=pressure price=8.4 currency=EUR order_code=L10022 in_stock=no",
			"part=KW 8038/230 maker=Kesselwind width_mm=80 height_mm=80 depth_mm=38 voltage_v=230 supply=ac power_w=13 airflow_m3h=52 static_pressure_pa=48 noise_dba=31 noise_kind=pressure price=24.9 currency=EUR order_code=L10023 in_stock=yes",
			"part=Harfe 92 maker=Harfenluft width_mm=92 height_mm=92 depth_mm=25 voltage_v=12 supply=dc current_a=0.19 power_w=2.3 airflow_m3h=68 static_pressure_pa=36 noise_dba=33 noise_kind=pressure price=9.6 currency=EUR order_code=L10024 stock=140",
			"part=Harfe 120 maker=Harfenluft width_mm=120 height_mm=120 depth_mm=25 voltage_v=24 supply=dc current_a=0.14 airflow_m3h=128 static_pressure_pa=42 noise_dba=36 noise_kind=pressure price=12.9 currency=EUR order_code=L10025 in_stock=yes",
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
