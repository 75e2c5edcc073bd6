package partscsv

import (
	"strings"
	"testing"

	"lowsone/catalog"
)

func TestBandHeaders(t *testing.T) {
	const power, pressure = catalog.NoisePower, catalog.NoisePressure
	for _, r := range []struct {
		header string
		hz     float64
		kind   catalog.NoiseKind
		said   weighting
	}{
		{"63 Hz", 63, 0, weightUnsaid}, {"125Hz", 125, 0, weightUnsaid}, {"1 kHz", 1000, 0, weightUnsaid}, {"8k", 8000, 0, weightUnsaid},
		{"L 125", 125, 0, weightUnsaid}, {"Lp 250 Hz [dB]", 250, pressure, weightUnsaid}, {"Lw63", 63, power, weightUnsaid},
		{"31,5 Hz", 31.5, 0, weightUnsaid}, {"31.5", 31.5, 0, weightUnsaid}, {"1,25 kHz", 1250, 0, weightUnsaid}, {"12.5k", 12500, 0, weightUnsaid},
		{"1.000 Hz", 1000, 0, weightUnsaid}, {"1'000 Hz", 1000, 0, weightUnsaid}, {"12 500 Hz", 12500, 0, weightUnsaid}, {"1.250 Hz", 1250, 0, weightUnsaid},
		{"LwA 500 Hz", 500, power, weightA}, {"Lw(A) 500 Hz", 500, power, weightA}, {"Lp_A_500Hz dB(A)", 500, pressure, weightA},
		{"2 kHz dB(A)", 2000, 0, weightA}, {"2 kHz (lin)", 2000, 0, weightNone}, {"Schallleistungspegel 4 kHz, A-bewertet", 4000, power, weightA},
		{"Oktave 125 Hz unbewertet [dB]", 125, 0, weightNone}, {"Terz 160 Hz", 160, 0, weightUnsaid}, {"1/3 octave 200 Hz", 200, 0, weightUnsaid},
		{"Niveau de pression acoustique 250 Hz non pondéré", 250, pressure, weightNone}, {"Potencia sonora 500 Hz ponderado A", 500, power, weightA},
		{"Bande d'octave 1000", 1000, 0, weightUnsaid}, {"Lp 63 Hz @ 1 m [dB re 20 µPa]", 63, pressure, weightUnsaid}, {"Lw 63 Hz re 1 pW", 63, power, weightUnsaid},
		{"f = 63 Hz", 63, 0, weightUnsaid}, {"63 [Hz]", 63, 0, weightUnsaid}, {"16 kHz", 16000, 0, weightUnsaid}, {"Lw 62.5 Hz", 63, power, weightUnsaid},
		{"125 Hz (2)", 125, 0, weightUnsaid}, {"Pegel bei 63 Hz", 63, 0, weightUnsaid}, {"f [Hz]: 63", 63, 0, weightUnsaid},
	} {
		h, ok := tables().bandHeader(r.header, "")
		if !ok || !h.plain || float64(nominalHz(h.n)) != r.hz || h.kind != r.kind || h.said != r.said {
			t.Errorf("bandHeader(%q) = %v Hz, %v, weighting %d, plain %v, %v; want %v Hz, %v, weighting %d", r.header, nominalHz(h.n), h.kind, h.said, h.plain, ok, r.hz, r.kind, r.said)
		}
	}
	for _, header := range []string{
		"60 Hz", "70 Hz", "Airflow 50 Hz", "Q @ 50 Hz [m³/h]", "Price 100", "500 pcs", "1000 h", "63 V", "AX63", "63x63", "63/125 Hz", "63 mm",
		"50/60 Hz", "L10", "", "Hz", "column 63", "PWM 25 kHz", "100 €", "Leistung 50 Hz [W]", strings.Repeat("1", 400), "1e3 Hz", "0", "-63 Hz W",
	} {
		if h, ok := tables().bandHeader(header, ""); ok && h.plain {
			t.Errorf("bandHeader(%q) is a band at %v Hz", header, nominalHz(h.n))
		}
	}
	for header, second := range map[string]string{"63": "Hz", "f [Hz]: 63": ""} {
		if h, ok := tables().bandHeader(header, second); !ok || !h.hertz {
			t.Errorf("Hz in %q, %q is not seen: %+v, %v", header, second, h, ok)
		}
	}
}

// octaves are the headers of a table with a column for each octave.
const octaves = "63 Hz|125 Hz|250 Hz|500 Hz|1 kHz|2 kHz|4 kHz|8 kHz"

// eightLevels are levels whose A-weighted sum is 55 dB(A).
const eightLevels = "45.2|48.2|52.2|54.1|49.3|46.6|41.8|38.3"

// Which columns are bands: the fields of each column of a table.
func TestBandColumns(t *testing.T) {
	eight := strings.Repeat("|noise_bands", 8)
	for _, r := range []struct{ name, header, row, want string }{
		{"octaves", "Part|Frame|" + octaves, "A1|60|" + eightLevels, "part|width_mm,height_mm" + eight},
		{"bare numbers", "Part|Frame|63|125|250|500|1000|2000|4000|8000", "A1|60|" + eightLevels, "part|width_mm,height_mm" + eight},
		{"bare numbers and k", "Part|Frame|63|125|250|500|1k|2k|4k|8k", "A1|60|" + eightLevels, "part|width_mm,height_mm" + eight},
		{"letters", "Part|Frame|L 63|L 125|L 250|L 500|L 1k|L 2k|L 4k|L 8k", "A1|60|" + eightLevels, "part|width_mm,height_mm" + eight},
		{"five are enough", "Part|Frame|125 Hz|250 Hz|500 Hz|1 kHz|2 kHz", "A1|60|1|2|3|4|5", "part|width_mm,height_mm" + strings.Repeat("|noise_bands", 5)},
		{"four are not", "Part|Frame|125 Hz|250 Hz|500 Hz|1 kHz", "A1|60|1|2|3|4", "part|width_mm,height_mm||||"},
		{"mains beside octaves", "Part|Frame|50 Hz|60 Hz|" + octaves, "A1|60|50|60|" + eightLevels, "part|width_mm,height_mm||" + eight},
		{"a mains frequency beside octaves", "Part|Frame|Frequency|" + octaves, "A1|60|50 Hz|" + eightLevels, "part|width_mm,height_mm|frequency_hz,supply" + eight},
		{"flow at a mains frequency", "Part|Frame|Airflow 50 Hz [m³/h]|" + octaves, "A1|60|50|" + eightLevels, "part|width_mm,height_mm|airflow_m3h,supply,frequency_hz" + eight},
		{"mains below third octaves", "Part|Frame|50 Hz|100 Hz|125 Hz|160 Hz|200 Hz|250 Hz|315 Hz", "A1|60|1|1|2|3|4|5|6", "part|width_mm,height_mm|" + strings.Repeat("|noise_bands", 6)},
		{"third octaves from 50 Hz", "Part|Frame|50 Hz|63 Hz|80 Hz|100 Hz|125 Hz|160 Hz", "A1|60|1|2|3|4|5|6", "part|width_mm,height_mm" + strings.Repeat("|noise_bands", 6)},
		{"prices of quantities", "Part|Frame|1|10|100|250|500|1000|2000|4000", "A1|60|9|8|7|6|5|4|3|2", "part|width_mm,height_mm||||||||"},
		{"doubled quantities", "Part|Frame|125|250|500|1000|2000|4000|8000", "A1|60|8|7|6|5|4|3|2", "part|width_mm,height_mm|||||||"},
		{"words in the cells", "Part|Frame|" + octaves, "A1|60|yes|no|yes|no|yes|no|yes|no", "part|width_mm,height_mm||||||||"},
		{"both kinds", "Part|Frame|Lw 125 Hz|Lw 250 Hz|Lw 500 Hz|Lw 1 kHz|Lw 2 kHz|Lp 125 Hz|Lp 250 Hz|Lp 500 Hz|Lp 1 kHz|Lp 2 kHz", "A1|60|11|12|13|14|15|1|2|3|4|5",
			"part|width_mm,height_mm|||||" + strings.Repeat("|noise_bands", 5)},
		{"both weightings", "Part|Frame|125 Hz dB(A)|250 Hz dB(A)|500 Hz dB(A)|1 kHz dB(A)|2 kHz dB(A)|125 Hz dB|250 Hz dB|500 Hz dB|1 kHz dB|2 kHz dB", "A1|60|11|12|13|14|15|1|2|3|4|5",
			"part|width_mm,height_mm|||||" + strings.Repeat("|noise_bands", 5)},
		{"one with its word, the others without", "Part|Frame|Lw 125 Hz|250 Hz|500 Hz|1 kHz|2 kHz", "A1|60|1|2|3|4|5", "part|width_mm,height_mm" + strings.Repeat("|noise_bands", 5)},
		{"halves of two kinds", "Part|Frame|Lp 63 Hz|Lp 125 Hz|Lp 250 Hz|Lp 500 Hz|Lw 1 kHz|Lw 2 kHz|Lw 4 kHz|Lw 8 kHz", "A1|60|1|2|3|4|5|6|7|8", "part|width_mm,height_mm||||||||"},
		{"bands of something else", "Part|Frame|Vibration 63 Hz|Vibration 125 Hz|Vibration 250 Hz|Vibration 500 Hz|Vibration 1 kHz", "A1|60|1|2|3|4|5", "part|width_mm,height_mm|||||"},
		{"pairs win", "Part|Frame|noise_bands|" + octaves, "A1|60|63:41|" + eightLevels, "part|width_mm,height_mm|noise_bands||||||||"},
		{"a band is not the noise", "Part|Frame|1 kHz [dB(A)]", "A1|60|31", "part|width_mm,height_mm|"},
	} {
		p, _ := planOf(t, 0, r.header+"\n"+r.row)
		var got []string
		for _, c := range p.Columns() {
			names, _, _ := strings.Cut(fieldsOf(&c), " ")
			got = append(got, names)
		}
		if all := strings.Join(got, "|"); all != r.want {
			t.Errorf("%s: columns are %s, want %s", r.name, all, r.want)
		}
	}
}
