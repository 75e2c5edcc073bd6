package partscsv

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

const mixedTable = `Artikel-Nr.|Typ|Hersteller|Abmessungen (mm)|Nennspannung|Spannungsbereich [V]|Luftstrom m³/h|Airflow CFM|Druck [Pa]|Geräusch dB(A)|Drehzahl 1/min|Leistung [W]|Lager|Anschluss|Preis €|Bestand|Schutzart
100234|AX6025|Nordwehe|60x60x25|12 VDC|7–13,8|23,5|13,8|35|28|3.400|1,2|Kugel|Litzen 3|12,50|120|IP20
100235|AX8025|Nordwehe|80 × 80 × 25|24 V DC|12 bis 28|60|36|40 Pa|32–34|3.000 ±10 %|2,4|Gleit|Stecker|9,90|ab Lager|IP20
100236|RG5115|Nordwehe|51x51x15|12 V|k. A.|8||120|0|5.500|1,4|Kugel|-|14,00|-|
100237|AX1238|Nordwehe|119x119x38|230 V~ 50/60 Hz|-|150/170|-|-|45/48|2600/3100|19/17|Kugel||25|3|`

const bandTable = `Typ|Hersteller|Maße (mm)|Luftstrom m³/h|Schalldruck dB(A) 1 m|50 Hz|60 Hz|Lw 63 Hz|Lw 125 Hz|Lw 250 Hz|Lw 500 Hz|Lw 1 kHz|Lw 2 kHz|Lw 4 kHz|Lp 125 Hz dB(A)|Lp 250 Hz dB(A)|Lp 500 Hz dB(A)|Lp 1 kHz dB(A)|Lp 2 kHz dB(A)|Lp 4 kHz dB(A)|8000
FX60|Nordwehe|60x60x25|23,5|24|ja|ja|45,2|48,2|52,2|54,1|49,3|46,6|41,8|1|2|3|4|5|6|1
FX80|Nordwehe|80x80x25|60|44|ja|nein|45,2|48,2|52,2|54,1|49,3|46,6|41,8|1|2|3|4|5|6|
FX92|Nordwehe|92x92x25|70||ja|nein|45,2|48,2|52,2||49,3|46,6|41,8||||||laut|
FX120|Nordwehe|120x120x38|150||ja|nein|48,2|48,2|52,2|54,1|49,3|46,6|41,8||||||4|1`

// Property: the order of the columns does not matter.
func TestColumnOrderDoesNotMatter(t *testing.T) {
	for _, text := range []string{mixedTable, bandTable} {
		columnOrderDoesNotMatter(t, text)
	}
}

func columnOrderDoesNotMatter(t *testing.T, text string) {
	header, rows := table(text)
	want := readAll(t, header, rows)
	rapid.Check(t, func(t *rapid.T) {
		order := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1)).Perm(len(header))
		var turned [][]string
		for _, row := range rows {
			turned = append(turned, permute(row, order))
		}
		if diff := cmp.Diff(want, readAll(t, permute(header, order), turned)); diff != "" {
			t.Fatalf("columns in the order %v read otherwise:\n%s", order, diff)
		}
	})
}

func permute(row []string, order []int) []string {
	out := make([]string, len(row))
	for i, j := range order {
		out[i] = row[j]
	}
	return out
}

type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// readAll writes what each row says, with its remarks or why it was rejected.
func readAll(t fataler, header []string, rows [][]string) []string {
	t.Helper()
	p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marksOf(tabular.Comma, len(header))})
	if err != nil {
		t.Fatalf("NewPlan = %v", err)
	}
	r := p.Reader()
	var list []string
	for _, row := range rows {
		fan, _, err := r.Read(row)
		if err != nil {
			list = append(list, err.Error())
			continue
		}
		text := said(fan)
		for _, m := range fan.Remarks {
			text += "; " + m
		}
		list = append(list, text)
	}
	return list
}

// Reading the same row twice gives the same fan: no state is left over.
func TestReaderKeepsNothing(t *testing.T) {
	for _, text := range []string{mixedTable, bandTable} {
		readerKeepsNothing(t, text)
	}
}

func readerKeepsNothing(t *testing.T, text string) {
	header, rows := table(text)
	want := readAll(t, header, rows)
	p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marksOf(tabular.Comma, len(header))})
	if err != nil {
		t.Fatal(err)
	}
	r := p.Reader()
	for _, i := range []int{3, 2, 1, 0, 0, 3} {
		fan, _, err := r.Read(slices.Clone(rows[i]))
		got := ""
		if err != nil {
			got = err.Error()
		} else {
			got = said(fan)
			for _, m := range fan.Remarks {
				got += "; " + m
			}
		}
		if got != want[i] {
			t.Errorf("row %d read again = %s, want %s", i, got, want[i])
		}
	}
}

// checkFan fails where a fan holds what no cell may bring in.
func checkFan(t *testing.T, f *catalog.Fan) {
	t.Helper()
	if f.Part == "" {
		t.Errorf("a fan without part")
	}
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		v, o := d.Get(f)
		if o == quantity.Unknown || !d.Numeric() {
			continue
		}
		if math.IsNaN(v.Number) || math.IsInf(v.Number, 0) {
			t.Errorf("%s = %v", d.Name, v.Number)
		}
		if reason, _ := d.Bound(v.Number); reason != "" && o == quantity.Cell {
			t.Errorf("%s: %s", d.Name, reason)
		}
	}
	if len(f.Curve) > 0 {
		if _, err := catalog.ParseCurve(catalog.FormatCurve(f.Curve)); err != nil {
			t.Errorf("curve %v", err)
		}
	}
	if len(f.NoiseBands) > 0 {
		if _, err := acoustics.ReadBands(f.NoiseBands, acoustics.Unweighted); err != nil {
			t.Errorf("bands %v", err)
		}
		if again, err := catalog.ParseBands(catalog.FormatBands(f.NoiseBands)); err != nil || len(again) != len(f.NoiseBands) {
			t.Errorf("bands %v read back as %v, %v", f.NoiseBands, again, err)
		}
	}
}

func FuzzCell(f *testing.F) {
	for _, cell := range []string{
		"45 m³/h (26.5 CFM)", "12 (7–13,8) V", "2 3/8\" x 2 3/8\" x 1\"", "□60×25", "-10…+70 °C", "25 dB(A) @ 1 m", "230 V~ 50/60 Hz",
		"12 V +10/-15 %", "45/53", "70.000 h @ 40 °C", "12,50 € / 100", "3-wire (PWM)", "0:42;10:35", "1e9", "6025", "½", "9999999999999 mm", "k. A.", "'=1", "~", "±", "12±", "x", "60x", "@",
	} {
		f.Add(cell, uint8(0))
	}
	for _, cell := range []string{
		"63:41;125:48;250:52;500:54;1000:49;2000:46;4000:41;8000:38", "125 Hz: 48,2 dB(A); 250 Hz: 52; 500: 54; 1k: 49; 2 kHz 46; 4k/41", "48 dB @ 125 Hz", "125:48;125:49", "125:999", "1e9:1", "-63:4", "63", ":;",
		"100:1;125:2;160:3;200:4;250:5;315:6;400:7;500:8;630:9;800:9;1000:9;1250:9;1600:9;2000:9;2500:9;3150:9;4000:9;5000:9;6300:9;8000:9", "63:--4", "k:k", "0:0", "4 B: 63 Hz",
	} {
		f.Add(cell, uint8(catalog.FieldNoiseBands))
	}
	f.Add(strings.Repeat("\t", 175), uint8(222))
	header := append([]string{"part"}, catalog.FieldNames()[1:]...)
	plans := map[tabular.Mark]*Plan{}
	for _, m := range []tabular.Mark{tabular.Point, tabular.Comma} {
		p, err := NewPlan(Input{File: "f.csv", Header: header, Marks: marksOf(m, len(header))})
		if err != nil {
			f.Fatal(err)
		}
		plans[m] = p
	}
	f.Fuzz(func(t *testing.T, cell string, which uint8) {
		for _, p := range plans {
			row := make([]string, len(header))
			row[0] = "A1"
			row[int(which)%len(row)] = cell
			fan, _, err := p.Reader().Read(row)
			if err == nil {
				checkFan(t, fan)
			}
		}
	})
}

func FuzzHeader(f *testing.F) {
	for _, h := range []string{"Airflow [m³/h]", "W x H x D (mm)", "N° 1", "Q max. @ 50/60 Hz (m3/h)", "V (Nenn)", "((", "1/min", "x", "É", "½"} {
		f.Add(h, "12 V")
	}
	for _, h := range []string{"63 Hz", "Lw63", "8k", "31,5 Hz [dB]", "Lp (A) 1.000 Hz @ 1 m dB re 20 µPa", "1/3 octave 125", "Oktavpegel", "Spectre par bande d'octave dB(A)", "16 Hz", "99999999999999999999 kHz"} {
		f.Add(h, "41,5")
	}
	f.Add("Terzpegel", "125:48;250:52;500:54;1000:49;2000:46;4000:41")
	f.Fuzz(func(t *testing.T, h, cell string) {
		p, err := NewPlan(Input{File: "f.csv", Header: []string{"Part number", "Frame", "h " + h}, Sample: [][]string{{"A1", "60", cell}, {"A2", "60", cell}}})
		if err != nil {
			return
		}
		if fan, _, err := p.Reader().Read([]string{"A1", "60", cell}); err == nil {
			checkFan(t, fan)
		}
	})
}

// FuzzBands: whatever stands in the columns of bands, a row gives a spectrum or
// none.
func FuzzBands(f *testing.F) {
	f.Add("63 Hz|125 Hz|250 Hz|500 Hz|1 kHz|2 kHz|4 kHz|8 kHz", "45.2|48.2|52.2|54.1|49.3|46.6|41.8|38.3")
	f.Add("Lw63|Lw125|Lw250|Lw500|Lw1k|Lw2k|Lw4k|Lw8k", "45|48|52|-|49|46|41|38")
	f.Add("50|63|80|100|125|160|200|250|315", "1|2|3|4|5|6|7|8|9")
	f.Add("125 Hz dB(A)|250 Hz dB(A)|500 Hz dB(A)|1 kHz dB(A)|2 kHz dB(A)|4 kHz dB(A)", "48|52 dB|<54|49-50|4.6 B|1e99")
	f.Add("63 Hz|63 Hz|125 Hz|125 Hz (2)|250 Hz|250|500|500", "1|1|2|2|3|3|4|4")
	f.Fuzz(func(t *testing.T, heads, cells string) {
		header := append([]string{"Part number", "Frame"}, strings.Split(heads, "|")...)
		row := append([]string{"A1", "60"}, strings.Split(cells, "|")...)
		if len(row) < len(header) {
			row = append(row, make([]string, len(header)-len(row))...)
		}
		row = row[:len(header)]
		p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: [][]string{row}})
		if err != nil {
			return
		}
		if fan, _, err := p.Reader().Read(row); err == nil {
			checkFan(t, fan)
		}
	})
}

// Property: the short way for plain numbers gives what the long way gives.
func TestPlainNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[0-9]{0,5}[.,]?[0-9]{0,5}`).Draw(t, "text")
		mark := rapid.SampledFrom([]tabular.Mark{tabular.Point, tabular.Comma}).Draw(t, "mark")
		got, ok := plainNumber(text, mark)
		want, err := tabular.ParseNumber(text, mark)
		if ok && (err != nil || got != want) {
			t.Fatalf("plainNumber(%q, %v) = %v, want %v, %v", text, mark, got, want, err)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	header, rows := table(mixedTable)
	p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marksOf(tabular.Comma, len(header))})
	if err != nil {
		b.Fatal(err)
	}
	r := p.Reader()
	b.ReportAllocs()
	for i := range b.N {
		_, _, _ = r.Read(rows[i%len(rows)])
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}

func BenchmarkPlan(b *testing.B) {
	header, rows := table(mixedTable)
	for b.Loop() {
		if _, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marksOf(tabular.Comma, len(header))}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReadBands reads rows with a column for each octave.
func BenchmarkReadBands(b *testing.B) {
	header, rows := table("Part|Frame|Noise dB(A)|" + octaves + "\nA1|60|55|" + eightLevels)
	p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows})
	if err != nil {
		b.Fatal(err)
	}
	r := p.Reader()
	b.ReportAllocs()
	for b.Loop() {
		_, _, _ = r.Read(rows[0])
	}
}
