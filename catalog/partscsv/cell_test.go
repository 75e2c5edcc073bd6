package partscsv

import (
	"strings"
	"testing"

	"lowsone/catalog/tabular"
)

// cellRow is one cell under one header: what it says, and what a remark about
// it must hold.
type cellRow struct {
	header, cell, want, remark string
}

func testCells(t *testing.T, mark tabular.Mark, rows []cellRow) {
	t.Helper()
	for _, r := range rows {
		got, remarks := readCellOf(t, mark, r.header, r.cell)
		if got != r.want {
			t.Errorf("%q under %q = %s, want %s", r.cell, r.header, got, r.want)
		}
		var texts []string
		for _, m := range remarks {
			texts = append(texts, m.Text)
		}
		if all := strings.Join(texts, "; "); r.remark == "" && all != "" || !strings.Contains(all, r.remark) {
			t.Errorf("%q under %q remarks %q, want %q", r.cell, r.header, all, r.remark)
		}
	}
}

func TestAirflowCells(t *testing.T) {
	testCells(t, tabular.Point, []cellRow{
		{"Airflow [m³/h]", "45", "airflow_m3h=45", ""},
		{"Airflow [m³/h]", " 45.5 ", "airflow_m3h=45.5", ""},
		{"Airflow [m³/h]", "1,250", "airflow_m3h=1250", ""},
		{"Airflow [m³/h]", "1'250", "airflow_m3h=1250", ""},
		{"Airflow [m³/h]", "1 250 m³/h", "airflow_m3h=1250", ""},
		{"Airflow", "26.5 CFM", "airflow_m3h=45.02", ""},
		{"Airflow", "26.5CFM", "airflow_m3h=45.02", ""},
		{"Airflow", "CFM 26.5", "airflow_m3h=45.02", ""},
		{"Airflow", "0.75 m³/min", "airflow_m3h=45", ""},
		{"Airflow", "0.75㎥/min", "airflow_m3h=45", ""},
		{"Airflow", "12.5 l/s", "airflow_m3h=45", ""},
		{"Airflow", "0.0125 m3/s", "airflow_m3h=45", ""},
		{"Airflow", "45 m³·h⁻¹", "airflow_m3h=45", ""},
		{"Airflow", "45 cbm/h", "airflow_m3h=45", ""},
		{"Airflow [m³/h]", "45-50", "airflow_m3h=45", "45 to 50 m³/h: the low end is taken"},
		{"Airflow [m³/h]", "45–50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "45 … 50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "45...50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "45 to 50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "von 45 bis 50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "de 45 à 50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "45 a 50 m³/h", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "entre 45 y 50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "between 45 and 50", "airflow_m3h=45", "low end"},
		{"Airflow [m³/h]", "max. 45", "airflow_m3h=45", `free airflow "max. 45" is an upper bound: read as 45 m³/h; the fan may give less`},
		{"Airflow [m³/h]", "45 max", "airflow_m3h=45", `free airflow "45 max" is an upper bound: read as 45 m³/h; the fan may give less`},
		{"Airflow [m³/h]", "≤ 45", "airflow_m3h=45", `free airflow "≤ 45" is an upper bound: read as 45 m³/h; the fan may give less`},
		{"Airflow [m³/h]", "bis zu 45", "airflow_m3h=45", `free airflow "bis zu 45" is an upper bound: read as 45 m³/h; the fan may give less`},
		{"Airflow [m³/h]", "jusqu'à 45", "airflow_m3h=45", `free airflow "jusqu'à 45" is an upper bound: read as 45 m³/h; the fan may give less`},
		{"Airflow [m³/h]", "hasta 45", "airflow_m3h=45", `free airflow "hasta 45" is an upper bound: read as 45 m³/h; the fan may give less`},
		{"Airflow [m³/h]", "bis 45", "airflow_m3h=45", `free airflow "bis 45" is an upper bound: read as 45 m³/h; the fan may give less`},
		{"Airflow [m³/h]", "up to 45", "airflow_m3h=45", "upper bound"},
		{"Airflow [m³/h]", ">45", "airflow_m3h=45", `free airflow ">45" is a lower bound: read as 45 m³/h`},
		{"Airflow [m³/h]", "≥ 45", "airflow_m3h=45", "lower bound"},
		{"Airflow [m³/h]", "ab 45", "airflow_m3h=45", "lower bound"},
		{"Airflow [m³/h]", "min. 45", "airflow_m3h=45", "lower bound"},
		{"Airflow [m³/h]", "ca. 45", "airflow_m3h=45", "about 45 m³/h"},
		{"Airflow [m³/h]", "~45", "airflow_m3h=45", "about"},
		{"Airflow [m³/h]", "env. 45", "airflow_m3h=45", "about"},
		{"Airflow [m³/h]", "aprox. 45", "airflow_m3h=45", "about"},
		{"Airflow [m³/h]", "60 (without guard)", "airflow_m3h=60", `free airflow has a remark beside it: "without guard"`},
		{"Airflow", "60 m³/h (without guard, at the outlet)", "airflow_m3h=60", `"without guard, at the outlet"`},
		{"Airflow", "60 (ohne Gitter) m³/h", "airflow_m3h=60", `"ohne Gitter"`},
		{"Airflow", "26.5 CFM (45 m³/h) (gemessen)", "airflow_m3h=45.02", `"gemessen"`},
		{"Airflow [m³/h]", "60 (cubic feet)", `reject: "cubic" is not understood`, ""},
		{"Airflow [m³/h]", "60 (per dozen)", `reject: "dozen" is not understood`, ""},
		{"Airflow [m³/h]", "60 (old: 55)", `reject: "old" is not understood`, ""},
		{"Airflow [m³/h]", "60 ohne Gitter", `reject: "ohne" is not understood`, ""},
		{"Airflow [m³/h]", "(without guard) 60", `reject: "without" is not understood`, ""},
		{"Airflow [m³/h]", "45*", "airflow_m3h=45", "footnote"},
		{"Airflow [m³/h]", "45¹", "airflow_m3h=45", "footnote"},
		{"Airflow [m³/h]", "45 1)", "airflow_m3h=45", "footnote"},
		{"Airflow [m³/h]", "45 ±10 %", "airflow_m3h=45", "±10 %"},
		{"Airflow [m³/h]", "45 m³/h @ 12 V", "airflow_m3h=45", "holds at 12 V"},
		{"Airflow [m³/h]", "45 bei 0 Pa", "airflow_m3h=45", "holds at 0 Pa"},
		{"Airflow", "45 m³/h (26.5 CFM)", "airflow_m3h=45", ""},
		{"Airflow", "26.5 CFM / 45 m³/h", "airflow_m3h=45.02", ""},
		{"Airflow [CFM]", "26.5 (45 m³/h)", "airflow_m3h=45.02", ""},
		{"Airflow (m³/h / CFM)", "45 / 26.5", "airflow_m3h=45", ""},
		{"Airflow", "45 m³/h (28.5 CFM)", "airflow_m3h=45", "differ by 7 %"},
		{"Airflow", "45 m³/h (76.5 CFM)", "reject: contradicts itself: 45 m³/h and 130 m³/h", ""},
		{"Airflow [m³/h]", "45/53", "airflow_m3h=45", "at another mains frequency, 53 m³/h"},
		{"Airflow", "45 m³/h @ 50 Hz / 53 m³/h @ 60 Hz", "supply=ac frequency_hz=50 airflow_m3h=45", "at 60 Hz 53 m³/h"},
		{"Airflow [m³/h]", "45 / 53 / 60", "reject: more than two values", ""},
		{"Airflow [m³/h]", "45 53", "reject: two numbers with nothing between them", ""},
		{"Airflow [m³/h]", "45 (53)", "reject: two values, and nothing says which is which", ""},
		{"Airflow [m³/h]", "0", "reject: 0 m³/h is outside the possible 0.01 to 200000", ""},
		{"Airflow [m³/h]", "-45", "reject: -45 m³/h is outside the possible 0.01 to 200000", ""},
		{"Airflow [m³/h]", "50-45", "reject: the range runs backwards", ""},
		{"Airflow [m³/h]", "45-", "airflow_m3h=45", ""},
		{"Airflow [m³/h]", "1,25", `reject: "1,25", read with a decimal point: digits are not grouped by three`, ""},
		{"Airflow [m³/h]", "45 Pa", "reject: Pa is no unit of flow", ""},
		{"Airflow [m³/h]", "45 m3/g", "reject: two numbers with nothing between them", ""},
		{"Airflow [m³/h]", "see curve", "reject: no number in it", ""},
		{"Airflow [m³/h]", "#REF!", "reject: an error of a spreadsheet, not a value", ""},
		{"Airflow [m³/h]", "#NAME?", "reject: an error of a spreadsheet, not a value", ""},
		{"Airflow [m³/h]", "#2", `reject: "#" is not understood`, ""},
		{"Airflow [m³/h]", "2029-06-25", "reject: a date, not a value", ""},
		{"Airflow [m³/h]", "1900-01-12 12:00:00", "reject: a date, not a value", ""},
		{"Airflow [m³/h]", "25.06.2029", "reject: a date, not a value", ""},
		{"Airflow [m³/h]", "25.6.29", "reject: a date, not a value", ""},
		{"Airflow [m³/h]", "6/25/2029", "reject: a date, not a value", ""},
		{"Airflow [m³/h]", "12:30:00", "reject: a time of day, not a value", ""},
		{"Airflow [m³/h]", "45/53/29", "reject: more than two values", ""},
		{"Airflow [m³/h]", "2029-13-25", "reject: the range runs backwards", ""},
		{"Airflow [m³/h]", "45 %", "reject: a percentage, not a value", ""},
		{"Airflow [m³/h]", "NaN", "reject: no number in it", ""},
		{"Airflow [m³/h]", "1e999", `reject: "1e999", read with a decimal point: not a finite number`, ""},
	})
	testCells(t, tabular.Comma, []cellRow{
		{"Luftstrom m³/h", "45,5", "airflow_m3h=45.5", ""},
		{"Luftstrom m³/h", "1.250,4", "airflow_m3h=1250", ""},
		{"Lebensdauer h", "1.100.000", "life_h=1100000", ""},
		{"Débit m³/h", "1 250,4", "airflow_m3h=1250", ""},
		{"Débit m³/h", "1\u202f250,4", "airflow_m3h=1250", ""},
		{"Luftstrom m³/h", "23,5–26", "airflow_m3h=23.5", "low end"},
		{"Luftstrom m³/h", "45.5", `reject: "45.5", read with a decimal comma: digits are not grouped by three`, ""},
	})
}

func TestPressureCells(t *testing.T) {
	testCells(t, tabular.Point, []cellRow{
		{"Static pressure", "35 Pa", "static_pressure_pa=35", ""},
		{"Static pressure", "3.57 mmH2O", "static_pressure_pa=35.01", ""},
		{"Static pressure", "3.57 mm H₂O", "static_pressure_pa=35.01", ""},
		{"Static pressure", "3.57 mmAq", "static_pressure_pa=35.01", ""},
		{"Static pressure", "3.57 mm WS", "static_pressure_pa=35.01", ""},
		{"Static pressure", "3.57 mm c.a.", "static_pressure_pa=35.01", ""},
		{"Static pressure", "0.14 inH2O", "static_pressure_pa=34.87", ""},
		{"Static pressure", "0.14 in. H2O", "static_pressure_pa=34.87", ""},
		{"Static pressure", `0.14" H2O`, "static_pressure_pa=34.87", ""},
		{"Static pressure", "0.14 inch-H2O", "static_pressure_pa=34.87", ""},
		{"Static pressure", "0.14 in. w.g.", "static_pressure_pa=34.87", ""},
		{"Static pressure", "0.14 in wg", "static_pressure_pa=34.87", ""},
		{"Static pressure", "0.14 inches W.C.", "static_pressure_pa=34.87", ""},
		{"Static pressure", `0.14" w.g.`, "static_pressure_pa=34.87", ""},
		{"Static pressure", "0.14 inches of water", "static_pressure_pa=34.87", ""},
		{"Static pressure", "3.57 mm w.g.", "static_pressure_pa=35.01", ""},
		{"Static pressure (in. w.g.)", "0.14", "static_pressure_pa=34.87", ""},
		{"Max pressure in. W.G.", "0.14", "static_pressure_pa=34.87", ""},
		{"Static pressure, inches of water", "0.14", "static_pressure_pa=34.87", ""},
		{"Static pressure", "0.35 mbar", "static_pressure_pa=35", ""},
		{"Static pressure", "3.5 daPa", "static_pressure_pa=35", ""},
		{"Static pressure", "35 Pa (3.57 mmH2O)", "static_pressure_pa=35", ""},
		{"Static pressure", "3.57 mmH2O = 35 Pa", "static_pressure_pa=35.01", ""},
		{"Static pressure", "35 Pa (12 mmH2O)", "reject: contradicts itself: 35 Pa and 117.7 Pa", ""},
		{"Static pressure", "30-35 Pa", "static_pressure_pa=30", "low end"},
		{"Static pressure", "< 35 Pa", "static_pressure_pa=35", "upper bound: read as 35 Pa; the fan may give less"},
		{"Static pressure", "min. 35 Pa", "static_pressure_pa=35", "lower bound: read as 35 Pa"},
	})
}

func TestNoiseCells(t *testing.T) {
	testCells(t, tabular.Point, []cellRow{
		{"Noise dB(A)", "28", "noise_dba=28", ""},
		{"Noise", "28 dBA", "noise_dba=28", ""},
		{"Noise", "28 dB (A)", "noise_dba=28", ""},
		{"Noise", "28 dB(A) @ 1 m", "noise_dba=28 noise_distance_m=1", ""},
		{"Noise", "28 dB(A) / 1m", "noise_dba=28 noise_distance_m=1", ""},
		{"Geräusch", "28 dB(A) in 1 m", "noise_dba=28 noise_distance_m=1", ""},
		{"Noise", "28 dB(A) @ 3 ft", "noise_dba=28 noise_distance_m=0.9144", ""},
		{"Bruit", "28 dB(A) à 1 m", "noise_dba=28 noise_distance_m=1", ""},
		{"Ruido", "28 dB(A) a 50 cm", "noise_dba=28 noise_distance_m=0.5", ""},
		{"Noise at 1 m (dBA)", "28", "noise_dba=28 noise_distance_m=1", ""},
		{"Noise", "25–30 dB(A)", "noise_dba=30", "high end"},
		{"Noise", "25...30 dB(A)", "noise_dba=30", "high end"},
		{"Noise", "25 (max. 28) dB(A)", "noise_dba=28", "25 to 28 dB(A): the high end is taken"},
		{"Noise", "≤ 30 dB(A)", "noise_dba=30", `noise "≤ 30 dB(A)" is an upper bound: read as 30 dB(A)`},
		{"Noise", "<20 dB(A)", "noise_dba=20", `noise "<20 dB(A)" is an upper bound: read as 20 dB(A)`},
		{"Noise dB(A)", "max. 20", "noise_dba=20", "upper bound"},
		{"Noise dB(A)", "bis 20", "noise_dba=20", "upper bound"},
		{"Noise dB(A)", "> 30", "reject: says only the least the level may be", ""},
		{"Noise dB(A)", "~25", "noise_dba=25", "about"},
		{"Noise dB(A)", "25*", "noise_dba=25", "footnote"},
		{"Noise", "28 dB(A) @1m/12V", "noise_dba=28 noise_distance_m=1", "holds at 12 V"},
		{"Noise", "28.0 dB(A) (LpA, 1 m)", "noise_dba=28 noise_kind=pressure noise_distance_m=1", ""},
		{"Noise", "28/32 dB(A)", "noise_dba=32", "mains frequency, 28 dB(A)"},
		{"Noise", "LwA 45 dB", "noise_dba=45 noise_kind=power", ""},
		{"Noise", "45 dB(A) LwA", "noise_dba=45 noise_kind=power", ""},
		{"Noise", "45 dB(A) (Lp)", "noise_dba=45 noise_kind=pressure", ""},
		{"Schallleistung dB(A)", "45", "noise_dba=45 noise_kind=power", ""},
		{"Puissance acoustique dB(A)", "45", "noise_dba=45 noise_kind=power", ""},
		{"Sound pressure level dB(A)", "28", "noise_dba=28 noise_kind=pressure", ""},
		{"Noise", "4.5 B", "noise_dba=45 noise_kind=power", "a level in bels is a sound power"},
		{"Noise", "4.5 bel LwA", "noise_dba=45 noise_kind=power", ""},
		{"Noise [B]", "4.5", "noise_dba=45 noise_kind=power", "bels"},
		{"Noise dB(A)", "4.5", "reject: 4.5 dB(A) is outside the possible 10 to 130", ""},
		{"Noise dB(A)", "0", "reject: 0 dB(A) is outside the possible 10 to 130", ""},
		{"Noise dB(A)", "25 (ohne Gitter)", "noise_dba=25", `noise has a remark beside it: "ohne Gitter"`},
		{"Noise", "< 25 dB(A) (ohne Gitter)", "noise_dba=25", "upper bound"},
		{"Noise", "25 dB(A) (frei blasend, ohne Gitter) @ 1 m", "noise_dba=25 noise_distance_m=1", `"frei blasend, ohne Gitter"`},
		{"Noise dB(A)", "28 (sones)", `reject: "sones" is not understood`, ""},
		{"Noise dB(A)", "28 (linear)", `reject: "linear" is not understood`, ""},
		{"Noise dB(A)", "28 (C)", `reject: "c" is not understood`, ""},
		{"Noise dB(A)", "28 (LwA, ohne Gitter)", `reject: "ohne" is not understood`, ""},
		{"Noise dB(A)", "0.8 sone", `reject: "sone" is not understood`, ""},
		{"Noise dB(A)", "28 dB(C)", `reject: "c" is not understood`, ""},
		{"Noise dB(A)", "28 °C", "reject: °C is no unit of level", ""},
	})
}

func TestVoltageCells(t *testing.T) {
	testCells(t, tabular.Comma, []cellRow{
		{"Spannung", "12 V", "voltage_v=12", ""},
		{"Spannung [V]", "12", "voltage_v=12", ""},
		{"Spannung", "12 VDC", "voltage_v=12 supply=dc", ""},
		{"Spannung", "12 VDC (ohne Stecker)", "voltage_v=12 supply=dc", `"ohne Stecker"`},
		{"Spannung", "DC 12 V", "voltage_v=12 supply=dc", ""},
		{"Spannung", "DC12V", "voltage_v=12 supply=dc", ""},
		{"Spannung", "12 V DC", "voltage_v=12 supply=dc", ""},
		{"Spannung", "12 V=", "voltage_v=12 supply=dc", ""},
		{"Spannung", "12 V⎓", "voltage_v=12 supply=dc", ""},
		{"Tension", "12 Vcc", "voltage_v=12 supply=dc", ""},
		{"Tensión", "230 Vca", "voltage_v=230 supply=ac", ""},
		{"Spannung", "230 V~", "voltage_v=230 supply=ac", ""},
		{"Spannung", "230 V~ 50 Hz", "voltage_v=230 supply=ac frequency_hz=50", ""},
		{"Spannung", "230 VAC, 50 Hz", "voltage_v=230 supply=ac frequency_hz=50", ""},
		{"Spannung", "230 V AC 50/60 Hz", "voltage_v=230 supply=ac", "50 and 60 Hz; which of them"},
		{"Spannung VDC", "12", "voltage_v=12 supply=dc", ""},
		{"Spannung", "1~ 230 V, 50 Hz", "voltage_v=230 supply=ac frequency_hz=50", ""},
		{"Spannung", "3~400 V", "voltage_v=400 supply=ac", ""},
		{"Spannung", "5 V USB", "voltage_v=5", ""},
		{"Spannung", "10,8–13,2 V", "voltage_v=12~ voltage_min_v=10.8 voltage_max_v=13.2", "estimated"},
		{"Spannung", "7 bis 13,8 V", "voltage_v=12~ voltage_min_v=7 voltage_max_v=13.8", "estimated"},
		{"Spannung", "7-11 V", "voltage_min_v=7 voltage_max_v=11", ""},
		{"Spannung", "4,5-13,8 V", "voltage_min_v=4.5 voltage_max_v=13.8", ""},
		{"Spannung", "12 (7–13,8) V", "voltage_v=12 voltage_min_v=7 voltage_max_v=13.8", ""},
		{"Spannung", "12 V (7...13,8 V)", "voltage_v=12 voltage_min_v=7 voltage_max_v=13.8", ""},
		{"Spannung", "12 V ±10 %", "voltage_v=12 voltage_min_v=10.8 voltage_max_v=13.2", ""},
		{"Spannung", "12 V +10/-15 %", "voltage_v=12 voltage_min_v=10.2 voltage_max_v=13.2", ""},
		{"Spannung", "12 V -15/+10 %", "voltage_v=12 voltage_min_v=10.2 voltage_max_v=13.2", ""},
		{"Spannung", "12 V +10%/-15%", "voltage_v=12 voltage_min_v=10.2 voltage_max_v=13.2", ""},
		{"Spannung", "12 V (±1,2 V)", "voltage_v=12 voltage_min_v=10.8 voltage_max_v=13.2", ""},
		{"Spannung", "100-240 VAC", "voltage_min_v=100 voltage_max_v=240 supply=ac", ""},
		{"Spannung", "220/240 V~", "voltage_v=230~ voltage_min_v=220 voltage_max_v=240 supply=ac", "estimated"},
		{"Spannung", "115/230 V", "reject: two voltages, 115 V and 230 V; the record holds one", ""},
		{"Spannung", "12 W", "reject: W is no unit of voltage", ""},
		{"Spannung", "min. 7 V, max. 13,8 V", "voltage_v=12~ voltage_min_v=7 voltage_max_v=13.8", "estimated"},
		{"Spannungsbereich [V]", "7–13,8", "voltage_v=12~ voltage_min_v=7 voltage_max_v=13.8", "estimated"},
		{"Spannungsbereich [V]", "12", "voltage_v=12", "taken as the nominal one"},
		{"Umin [V]", "7", "voltage_min_v=7", ""},
		{"Umax [V]", "13,8", "voltage_max_v=13.8", ""},
		{"Spannung", "13,8-7 V", "reject: the range runs backwards", ""},
	})
}

func TestOtherCells(t *testing.T) {
	testCells(t, tabular.Point, []cellRow{
		{"Speed (rpm)", "2,800", "speed_rpm=2800", ""},
		{"Speed", "2800 rpm ±10 %", "speed_rpm=2800", "±10 %"},
		{"Speed", "2800 min⁻¹", "speed_rpm=2800", ""},
		{"Speed", "2800 1/min", "speed_rpm=2800", ""},
		{"Vitesse", "2800 tr/min", "speed_rpm=2800", ""},
		{"Speed (rpm)", "800-2800", "speed_rpm=2800", "high end"},
		{"Current", "120 mA", "current_a=0.12", ""},
		{"Current (A)", "0.12 (max 0.15)", "current_a=0.15", "high end"},
		{"Current", "0.12A (Max.0.15A)", "current_a=0.15", "high end"},
		{"Current (A)", ".12", "current_a=0.12", ""},
		{"Current (A)", "> 0.12", "current_a=0.12", "lower bound: read as 0.12 A; it may be more"},
		{"Current (A)", "?", "", ""},
		{"Current (A)", "low", "", "no number in it; taken as unknown"},
		{"Power (W)", "1.4", "power_w=1.4", ""},
		{"Power (W)", "0", "", "taken as unknown"},
		{"Leads", "3", "leads=3", ""},
		{"Leads", "3-wire", "leads=3", ""},
		{"Litzen", "3 Litzen", "leads=3", ""},
		{"Litzen", "4-polig", "leads=4", ""},
		{"Fils", "3 fils", "leads=3", ""},
		{"Hilos", "3 hilos", "leads=3", ""},
		{"Leads", "4 (PWM)", "leads=4 pwm=yes", ""},
		{"Leads", "3 (tach)", "leads=3 tach_per_rev=2~", "2 pulses per turn"},
		{"Leads", "2.5", "", "not a whole number"},
		{"Tach", "yes", "tach_per_rev=2~", "estimated"},
		{"Tach", "no", "tach_per_rev=0", ""},
		{"Tach", "2", "tach_per_rev=2", ""},
		{"Tach", "2 pulses/rev", "tach_per_rev=2", ""},
		{"Tacho Imp./U", "2 Imp./U", "tach_per_rev=2", ""},
		{"Tach signal", "FG", "tach_per_rev=2~", "estimated"},
		{"Tach signal", "RD", "tach_per_rev=0", "alarm output, no tach"},
		{"Tach signal", "locked rotor alarm", "tach_per_rev=0", "alarm output"},
		{"Tach signal", "FG + PWM", "tach_per_rev=2~ pwm=yes", "estimated"},
		{"Tach signal", "none", "tach_per_rev=0", ""},
		{"PWM", "ja", "pwm=yes", ""},
		{"PWM", "x", "pwm=yes", ""},
		{"PWM", "✓", "pwm=yes", ""},
		{"PWM", "non", "pwm=no", ""},
		{"PWM", "sí", "pwm=yes", ""},
		{"PWM", "sin", "pwm=no", ""},
		{"PWM", "WAHR", "pwm=yes", ""},
		{"PWM", "FALSO", "pwm=no", ""},
		{"Life (h)", "70,000", "life_h=70000", ""},
		{"Life", "70,000 h @ 40 °C", "life_h=70000 life_temp_c=40", ""},
		{"Life", "70 000 h (40°C)", "life_h=70000 life_temp_c=40", ""},
		{"Life", "L10: 70,000 h", "life_h=70000", ""},
		{"Life (h @ 40 °C)", "70000", "life_h=70000 life_temp_c=40", ""},
		{"Life (h)", "50000-70000", "life_h=50000", "low end"},
		{"Life (h)", "bis 70000", "life_h=70000", "upper bound: read as 70000 h; it may be less"},
		{"Operating temperature", "-10…+70 °C", "temp_max_c=70", "high end"},
		{"Operating temperature", "-10 °C to +70 °C", "temp_max_c=70", "high end"},
		{"Operating temperature", "-10/+70 °C", "temp_max_c=70", "high end"},
		{"Operating temperature", "- 10 ~ + 70 ℃", "temp_max_c=70", "high end"},
		{"Operating temperature", "14 to 158 °F", "temp_max_c=70", "high end"},
		{"Operating temperature (°C)", "70", "temp_max_c=70", ""},
		{"Operating temperature (°C)", "max. 70", "temp_max_c=70", ""},
		{"Price", "12.50 €", "price=12.5 currency=EUR", ""},
		{"Price", "EUR 12.50", "price=12.5 currency=EUR", ""},
		{"Price", "$3.20", "price=3.2 currency=USD", ""},
		{"Price [GBP]", "3.20", "price=3.2 currency=GBP", ""},
		{"Price", "1,250.00 CHF", "price=1250 currency=CHF", ""},
		{"Price", "12.50 € / 100 pcs", "", "taken as unknown"},
		{"Price", "on request", "", ""},
		{"Price (€)", "0.00", "", "taken as unknown"},
		{"Stock", "120", "stock=120", ""},
		{"Stock", "120 pcs", "stock=120", ""},
		{"Stock", ">100", "stock=100", `">100" is read as 100`},
		{"Stock", "100+", "stock=100", "is read as 100"},
		{"Stock", "0", "stock=0", ""},
		{"Stock", "true", "in_stock=yes", "the number is not stated"},
		{"Stock", "FALSCH", "stock=0", "read as none"},
		{"Stock", "VRAI", "in_stock=yes", "the number is not stated"},
		{"Bestand", "ab Lager", "in_stock=yes", "the number is not stated"},
		{"Bestand", "ausverkauft", "stock=0", "none"},
		{"Disponibilité", "en rupture", "stock=0", "none"},
		{"Frequency (Hz)", "50", "supply=ac frequency_hz=50", ""},
		{"Frequency (Hz)", "50/60", "", "50 and 60 Hz"},
		{"Fan curve", "0:42;10:35;22:0", "airflow_m3h=22 static_pressure_pa=42 curve=0:42;10:35;22:0", ""},
		{"Fan curve", "0:42;10:45", "static_pressure_pa=42 curve=0:42;10:45", ""},
		{"Fan curve", "0:222222;1:3", "reject: 222222 Pa is outside the possible 0.1 to 50000", ""},
		{"Fan curve", "0:0;10:30", "reject: no pressure at no flow: no fan is like this", ""},
		{"Fan curve", "0:42", "reject: a curve needs two points or more", ""},
		{"Bearing", "ball", "bearing=ball", ""},
		{"Bearing", "n/a", "", ""},
		{"Connector", " PH \n style ", "connector=PH style", ""},
		{"Connector", "'=A1", "connector==A1", ""},
	})
}

func TestKindCells(t *testing.T) {
	testCells(t, tabular.Point, []cellRow{
		{"Kind", "axial", "kind=axial", ""},
		{"Kind", "Axiallüfter", "kind=axial", ""},
		{"Kind", "DC axial fan", "kind=axial supply=dc", ""},
		{"Bauart", "Radialgebläse", "kind=centrifugal", ""},
		{"Bauart", "Radiallüfter", "kind=centrifugal", ""},
		{"Bauart", "Zentrifugalventilator", "kind=centrifugal", ""},
		{"Bauart", "Querstromgebläse", "kind=crossflow", ""},
		{"Bauart", "Tangentiallüfter", "kind=crossflow", ""},
		{"Bauart", "Diagonallüfter", "kind=mixed", ""},
		{"Bauart", "halbaxial", "kind=mixed", ""},
		{"Kind", "blower", "kind=centrifugal", "taken as a centrifugal fan"},
		{"Kind", "Mixed flow", "kind=mixed", ""},
		{"Kind", "cross-flow", "kind=crossflow", ""},
		{"Genre", "hélicoïde", "kind=axial", ""},
		{"Genre", "centrifuge", "kind=centrifugal", ""},
		{"Genre", "tangentiel", "kind=crossflow", ""},
		{"Clase", "centrífugo", "kind=centrifugal", ""},
		{"Clase", "helicocentrífugo", "kind=mixed", ""},
		{"Clase", "flujo cruzado", "kind=crossflow", ""},
		{"Kind", "Lüfter", "", "does not say which kind"},
		{"Kind", "finger guard", "reject: no kind of fan is known by this name", ""},
		{"Kind", "axial/radial", "reject: names two of axial, centrifugal, mixed, crossflow", ""},
		{"Kind", "k. A.", "", ""},
	})
}

// Words for unknown are unknown in every column; a part must be there.
func TestUnknownWords(t *testing.T) {
	for _, word := range []string{"", " ", "-", "--", "–", "?", "n/a", "N/A", "n.a.", "k. A.", "k.A.", "keine Angabe", "tbd", "TBD", "on request", "auf Anfrage", "sur demande", "s/d", "bajo pedido", "#N/A", "(n/a)", "…"} {
		for _, header := range []string{"Airflow [m³/h]", "Noise dB(A)", "Rated voltage (V)", "Kind", "Bearing", "Price", "Size (mm)"} {
			if got, remarks := readCellOf(t, tabular.Point, header, word); got != "" || len(remarks) > 0 {
				t.Errorf("%q under %q = %s, %v, want unknown", word, header, got, remarks)
			}
		}
		p, _ := planOf(t, tabular.Point, "Part number|Size\nA1|60\nA2|80")
		if _, _, err := p.Reader().Read([]string{word, "60"}); err == nil || err.Error() != `"Part number": no part number` {
			t.Errorf("a row with part %q gives %v, want no part number", word, err)
		}
	}
}
