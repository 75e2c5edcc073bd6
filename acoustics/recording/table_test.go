package recording

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

func readTable(text string, opts TableOptions) (*Table, error) {
	return ReadBands(context.Background(), "bands.csv", strings.NewReader(text), int64(len(text)), opts)
}

// octaveRows is a column of frequencies and one of levels, 40 dB and one more for
// each octave from 125 Hz on.
func octaveRows(separator string, hz ...string) string {
	var b strings.Builder
	for i, f := range hz {
		fmt.Fprintf(&b, "%s%s%d\n", f, separator, 40+i)
	}
	return b.String()
}

var plainOctaves = []string{"125", "250", "500", "1000", "2000", "4000"}

// Each table holds octaves of 40, 41 … 45 dB from 125 Hz to 4 kHz.
func TestReadsTables(t *testing.T) {
	wide := "125 Hz;250 Hz;500 Hz;1 kHz;2 kHz;4 kHz"
	for _, r := range []struct {
		name   string
		text   string
		weight acoustics.Weighting
		stated bool
		note   string
	}{
		{"plain", "Frequency [Hz];Level [dB]\n" + octaveRows(";", plainOctaves...), acoustics.Unweighted, false, "taken as unweighted"},
		{"no header", octaveRows(",", plainOctaves...), acoustics.Unweighted, false, ""},
		{"no header, its decimal mark the only one", "125;40.0\n" + octaveRows(";", plainOctaves...)[len("125;40\n"):], acoustics.Unweighted, false, ""},
		{"units below the bands", "Time;" + wide + "\ns;dB(A);dB(A);dB(A);dB(A);dB(A);dB(A)\n1;40;41;42;43;44;45\n", acoustics.AWeighted, true, ""},
		{"units in the cells", "Band,Leq\n" + octaveRows(",", "125 Hz", "250Hz", "500 Hz", "1k", "2 kHz", "4.0 kHz"), acoustics.Unweighted, false, ""},
		{"kHz", "Frequency (kHz)\tLZeq\n" + octaveRows("\t", "0.125", "0.25", "0.5", "1", "2", "4"), acoustics.Unweighted, true, ""},
		{"decimal comma", "Frequenz;Pegel dB(A)\n125,0;40,0\n250,0;41,0\n500,0;42,0\n1,0 kHz;43,0\n2,0 kHz;44,0\n4,0 kHz;45,0\n", acoustics.AWeighted, true, ""},
		{"digits in groups", "Frequency;LAeq\n" + octaveRows(";", "125", "250", "500", "1.000", "2.000", "4.000"), acoustics.AWeighted, true, ""},
		{"levels first", "LAeq;Frequency\n40;125\n41;250\n42;500\n43;1k\n44;2k\n45;4k\n", acoustics.AWeighted, true, ""},
		{"levels first, no header", "40;125\n41;250\n42;500\n43;1k\n44;2k\n45;4k\n", acoustics.Unweighted, false, ""},
		{"unit in each cell", "Band;Level\n125 Hz;40 dB(A)\n250 Hz;41 dB(A)\n500 Hz;42 dB(A)\n1 kHz;43 dB(A)\n2 kHz;44 dB(A)\n4 kHz;45 dB(A)\n", acoustics.AWeighted, true, ""},
		{"titles, units and a sum", "Report of a bench\nWeighting: A\n\nFrequency;Level\nHz;dB\n" + octaveRows(";", plainOctaves...) + "Total;52\n", acoustics.AWeighted, true, `"Total", is no band`},
		{"unit below says A", "Frequency;Level\nHz;dB(A)\n" + octaveRows(";", plainOctaves...), acoustics.AWeighted, true, ""},
		{"maxima beside", "Frequency,Lmax,Leq\n125,60,40\n250,60,41\n500,60,42\n1000,60,43\n2000,60,44\n4000,60,45\n", acoustics.Unweighted, false, "maximum left out"},
		{"A beside Z", "Frequency,LAeq,LZeq\n125,60,40\n250,60,41\n500,60,42\n1000,60,43\n2000,60,44\n4000,60,45\n", acoustics.Unweighted, true, "A-weighted left out"},
		{"one row", wide + "\n40;41;42;43;44;45\n", acoustics.Unweighted, false, ""},
		{"one row, bare headers", "125;250;500;1000;2000;4000\n40;41;42;43;44;45\n", acoustics.Unweighted, false, ""},
		{"two rows", "Time;" + wide + ";LAeq\n12:00;40;41;42;43;44;45;50\n12:01;40;41;42;43;44;45;50\n", acoustics.Unweighted, false, "2 rows of levels: averaged as energies"},
		{"weighting in the headers", "LAeq 125Hz,LAeq 250Hz,LAeq 500Hz,LAeq 1kHz,LAeq 2kHz,LAeq 4kHz\n40,41,42,43,44,45\n", acoustics.AWeighted, true, ""},
		{"kinds in the rows", "Kind;" + wide + "\nLZFmax;60;60;60;60;60;60\nLAeq;50;50;50;50;50;50\nLZeq;40;41;42;43;44;45\n", acoustics.Unweighted, true, "maximum, unweighted left out"},
		{"kinds side by side", "LAeq_125Hz,LAeq_250Hz,LAeq_500Hz,LAeq_1kHz,LAeq_2kHz,LAeq_4kHz,LAFmax_125Hz,LAFmax_250Hz,LAFmax_500Hz,LAFmax_1kHz,LAFmax_2kHz,LAFmax_4kHz\n40,41,42,43,44,45,60,60,60,60,60,60\n", acoustics.AWeighted, true, "maximum, A-weighted left out"},
		{"from the highest down", "4k;2k;1k;500;250;125\n45;44;43;42;41;40\n", acoustics.Unweighted, false, ""},
		{"exact frequencies", "Frequency;Level dB(Z)\n125.89;40\n251.19;41\n501.19;42\n1000.00;43\n1995.26;44\n3981.07;45\n", acoustics.Unweighted, true, ""},
		{"only maxima", "Frequency;LAFmax\n" + octaveRows(";", plainOctaves...), acoustics.AWeighted, true, `of the kind "maximum"`},
		{"a band outside", "Frequency;LZeq\n16;70\n" + octaveRows(";", plainOctaves...), acoustics.Unweighted, true, "1 bands below 25 Hz"},
		{"UTF-16", "\xff\xfe" + utf16(octaveRows(";", plainOctaves...)), acoustics.Unweighted, false, ""},
	} {
		got, err := readTable(r.text, TableOptions{})
		if err != nil {
			t.Errorf("%s: %v", r.name, err)
			continue
		}
		var levels []quantity.BandLevel
		for i := range 6 {
			levels = append(levels, quantity.BandLevel{Frequency: acoustics.OctaveHz(2 + i), Level: quantity.Decibel(40 + i)})
		}
		want, err := acoustics.ReadBands(levels, r.weight)
		if err != nil {
			t.Fatal(err)
		}
		for i := range want.Thirds {
			if !(math.Abs(got.Thirds[i]-want.Thirds[i]) < 1e-9) && got.Thirds[i] != want.Thirds[i] {
				t.Errorf("%s: %v, want %v", r.name, got.Thirds, want.Thirds)
				break
			}
		}
		if got.Weighting != r.weight || got.Stated != r.stated {
			t.Errorf("%s: weighting %v, stated %v, want %v, %v", r.name, got.Weighting, got.Stated, r.weight, r.stated)
		}
		if !strings.Contains(strings.Join(got.Notes, "\n"), r.note) {
			t.Errorf("%s: notes %q, want %q", r.name, got.Notes, r.note)
		}
	}
}

func utf16(text string) string {
	var b strings.Builder
	for _, r := range text {
		b.WriteByte(byte(r))
		b.WriteByte(byte(r >> 8))
	}
	return b.String()
}

// Several rows are averaged as energies, each band over the cells it has.
func TestRowsAreAveraged(t *testing.T) {
	got, err := readTable("125;250;500;1000;2000;4000\n40;50;50;50;50;50\n50;50;50;-;50;50\n", TableOptions{})
	if err != nil {
		t.Fatal(err)
	}
	o := got.Thirds.Octaves()
	near(t, "mean of 40 and 50 dB", o[2], 10*math.Log10((1e4+1e5)/2), 1e-9, "energies")
	near(t, "one level alone", o[5], 50, 1e-9, "the other cell is empty")
	if got.Rows != 2 || !strings.Contains(strings.Join(got.Notes, "\n"), "1 cells hold no level") {
		t.Errorf("%d rows, notes %q", got.Rows, got.Notes)
	}
}

func TestOptionsOfTables(t *testing.T) {
	text := "Frequency;Level;dB(A);first\n125;40;30;1\n250;40;30;1\n500;40;30;1\n1000;40;30;1\n2000;40;30;1\n4000;40;30;1\n"
	got, err := readTable(text, TableOptions{Column: "first", Weighting: quantity.Stated(acoustics.AWeighted)})
	if err != nil || !got.Stated || got.Weighting != acoustics.AWeighted {
		t.Fatalf("%+v, %v, want A-weighted as given", got, err)
	}
	near(t, "level of the chosen column", got.Thirds.A().DB(), 10*math.Log10(6*ratio(1)), 0.5, "six octaves of 1 dB(A)")
	if _, err := readTable(text, TableOptions{Column: "fourth"}); !errors.Is(err, ErrLayout) {
		t.Errorf("a column that is not there: %v, want ErrLayout", err)
	}
	got, err = readTable("125;40,1\n250;41,2\n500;42,3\n1000;43,4\n2000;44,5\n4000;45,6\n", TableOptions{Tabular: tabular.Options{Decimal: tabular.Comma}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "forced comma", got.Thirds.Octaves()[2], 40.1, 1e-9, "as it stands")
	got, err = readTable("Hz;LwA\n"+octaveRows(";", plainOctaves...), TableOptions{AnyScale: true})
	if err != nil || got.Weighting != acoustics.AWeighted {
		t.Fatalf("sound power of any scale: %+v, %v, want its shape, A-weighted", got, err)
	}
	got, err = readTable("Hz;dB\n125;-60\n250;-61\n500;-62\n1000;-63\n2000;-64\n4000;-65\n", TableOptions{AnyScale: true})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "any scale", got.Thirds.Octaves()[2], -60, 1e-9, "as it stands")
}

func TestRefusesTables(t *testing.T) {
	for _, r := range []struct {
		name, text string
		kind       error
		want, hint string
	}{
		{"no level", "Frequency;Level\n125;40\n250;4x\n", ErrCell, `bands.csv:3:5: "Level": "4x" is not a level`, "42.5"},
		{"another unit", "Frequency;Level\n125;40\n250;41 Pa\n", ErrCell, `bands.csv:3:5: "Level": "41 Pa" is not a level`, "42.5"},
		{"no frequency", "Frequency;Level\n125;40\n2e9x;41\n", ErrCell, `bands.csv:3:1: "Frequency": "2e9x" is not a frequency`, "1.25 kHz"},
		{"two decimal marks", "Frequency;Level\n125;40,1.2\n250;41\n", ErrCell, `bands.csv:2:5: "Level": "40,1.2"`, "42.5"},
		{"far too large", "Frequency;Level\n125;1e9\n250;41\n", ErrCell, `bands.csv:2:5`, ""},
		{"no bands", "a;b\n1;2\n3;4\n", ErrLayout, "bands.csv:1: no column and no row", "frequencies as headers"},
		{"a parts list", "Part;Airflow;Noise\nX-1;20;30\nX-2;25;32\n", ErrLayout, "no column and no row", ""},
		{"no levels", "Frequency;Comment\n125;fine\n250;loud\n500;loud\n1000;x\n", ErrCell, `"fine" is not a level`, ""},
		{"no levels among three", "Frequency;Comment;More\n125;fine;a\n250;loud;b\n", ErrLayout, "no column of levels", "dB"},
		{"which of two", "Frequency;left;right\n125;40;41\n250;40;41\n", ErrLayout, "2 columns", "left, right"},
		{"ragged", "125;250;500;1000;2000;4000\n40;41;42;43;44;45\n40;41;42\n", ErrLayout, "bands.csv:3: 3 cells where the header has 6", "mend"},
		{"C-weighted", "Frequency;LCeq\n" + octaveRows(";", plainOctaves...), ErrLayout, "C-weighted", "unweighted"},
		{"sound power", "Frequency;LwA\n" + octaveRows(";", plainOctaves...), ErrBands, "sound power", "11 dB"},
		{"sound power in a title", "Schallleistungspegel im Hallraum\nFrequenz;Pegel\n" + octaveRows(";", plainOctaves...), ErrBands, "sound power", "11 dB"},
		{"contradiction", "Kind;125;250;500;1000;2000;4000 dB(Z)\nLAeq;1;2;3;4;5;6\n", ErrCell, "bands.csv:2:16", "leave one"},
		{"re full scale", "Frequency;Level\n125;-60\n250;-61\n500;-62\n1000;-63\n2000;-64\n4000;-65\n", ErrBands, "below 0 dB", "calibrated"},
		{"narrow bands", "Frequency;Level\n100;40\n110;40\n120;40\n", ErrBands, `bands.csv:3:5: no band lies at "110" Hz`, "narrow-band"},
		{"twice", "Frequency;Level\n" + octaveRows(";", "125", "250", "500", "1000", "1k", "2000"), ErrBands, `bands.csv:6:4: the band at "1000" Hz stands there twice`, "leave one"},
		{"too loud", "Frequency;Level\n125;40\n250;131\n500;40\n1000;40\n2000;40\n4000;40\n", ErrBands, `bands.csv:3:5: the level at "250" Hz is "131" dB`, "20 µPa"},
		{"too loud once the weighting is off", "Frequency;LAeq\n125;40\n250;125\n500;40\n1000;40\n2000;40\n4000;40\n", ErrBands, "bands.csv:3:5:", "20 µPa"},
		{"a gap", "Frequency;Level\n" + octaveRows(";", "125", "250", "1000", "2000", "4000"), ErrBands, `missing: "500" Hz`, "without a gap"},
		{"too few", "Frequency;Level\n" + octaveRows(";", "250", "500", "1000"), ErrBands, "too few", "without a gap"},
		{"all empty", "Frequency;Level\n125;-\n250;\n", ErrLayout, "no band has a level", ""},
		{"only a header", "Frequency;Level\n", tabular.ErrNoRows, "", ""},
		{"nothing", "", tabular.ErrEmpty, "", ""},
		{"a WAV", string(mono(16000, ramp(2000)).encode()), tabular.ErrNotText, "", ""},
	} {
		got, err := readTable(r.text, TableOptions{})
		if !errors.Is(err, r.kind) || !strings.Contains(err.Error(), r.want) {
			t.Errorf("%s: %+v, error %v, want %q of kind %v", r.name, got, err, r.want, r.kind)
			continue
		}
		var e *Error
		if errors.As(err, &e) && !strings.Contains(e.Hint, r.hint) {
			t.Errorf("%s: hint %q, want %q", r.name, e.Hint, r.hint)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	text := octaveRows(";", plainOctaves...)
	if _, err := ReadBands(ctx, "bands.csv", strings.NewReader(text), int64(len(text)), TableOptions{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v, want context.Canceled", err)
	}
}

// How people write a frequency.
func TestParseHz(t *testing.T) {
	for _, r := range []struct {
		cell string
		mark tabular.Mark
		want float64 // 0: none
	}{
		{"125", tabular.Point, 125}, {"125 Hz", tabular.Point, 125}, {"125Hz", tabular.Comma, 125}, {"1k", tabular.Point, 1000},
		{"1.25 kHz", tabular.Point, 1250}, {"12,5 kHz", tabular.Comma, 12500}, {"12,5 kHz", tabular.Point, 12500}, {"1.25k", tabular.Comma, 1250},
		{"1.250", tabular.Point, 1250}, {"1.250", tabular.Comma, 1250}, {"1,250", tabular.Point, 1250}, {"12.500", tabular.Point, 12500}, {"31,5", tabular.Point, 31.5},
		{"31.5", tabular.Comma, 31.5}, {"10 000 Hz", tabular.Point, 10000}, {"1'000", tabular.Point, 1000}, {"8 KHZ", tabular.Point, 8000},
		{" 63 ", tabular.Point, 63}, {"110", tabular.Point, 110}, {"", tabular.Point, 0}, {"Hz", tabular.Point, 0}, {"125 dB", tabular.Point, 0}, {"1k6", tabular.Point, 0},
	} {
		got, ok := parseHz(r.cell, 1, r.mark, otherMark(r.mark))
		if ok != (r.want != 0) || ok && math.Abs(got-r.want) > 1e-9 {
			t.Errorf("parseHz(%q, %v) = %v, %v, want %v", r.cell, r.mark, got, ok, r.want)
		}
	}
	for header, want := range map[string]float64{
		"125 Hz": 125, "LZeq 12,5 kHz [dB]": 12500, "1/3 Oct 125Hz": 125, "LAeq_1k": 1000, "4 kHz (dB)": 4000, "125 (dB)": 125, "63": 63, "125 Hz dB(A)": 125, "125Hz_LAeq": 125, "4000 dB(Z)": 4000,
		"L50": 0, "LA90": 0, "Time": 0, "12:00": 0, "": 0, "Slot 50": 0, "110 Hz": 0,
	} {
		got, ok := headerHz(header)
		if ok != (want != 0) || ok && math.Abs(got-want) > 1e-9 {
			t.Errorf("headerHz(%q) = %v, %v, want %v", header, got, ok, want)
		}
	}
}

func TestLabels(t *testing.T) {
	for text, want := range map[string]label{
		"Level":               {},
		"dB(A)":               {weight: weightA},
		"dBA":                 {weight: weightA},
		"dB A":                {weight: weightA},
		"Pegel [dB(a)]":       {weight: weightA},
		"LAeq":                {weightA, statMean},
		"LwA":                 {weightA, statPower},
		"LW(A) [dB]":          {weightA, statPower},
		"L_WA":                {weightA, statPower},
		"Lw":                  {stat: statPower},
		"Sound power level":   {stat: statPower},
		"Lwand":               {},
		"LAeq,1s":             {weightA, statMean},
		"L_Aeq":               {weightA, statMean},
		"LAFmax":              {weightA, statMax},
		"LZSmin":              {weightZ, statMin},
		"LCpk":                {weightC, statPeak},
		"LZF90":               {weightZ, statShare},
		"L90":                 {stat: statShare},
		"Leq":                 {stat: statMean},
		"LpA":                 {weight: weightA},
		"LA":                  {weight: weightA},
		"dB(lin)":             {weight: weightZ},
		"dB(Z)":               {weight: weightZ},
		"Linear":              {weight: weightZ},
		"A-weighted":          {weight: weightA},
		"C-bewertet":          {weight: weightC},
		"pondération A":       {weight: weightA},
		"mean level":          {stat: statMean},
		"la fréquence":        {},
		"dB a 1 m":            {},
		"minutes":             {},
		"Leq (dB) unweighted": {weightZ, statMean},
	} {
		if got := labelOf(text); got != want {
			t.Errorf("labelOf(%q) = %v, want %v", text, got, want)
		}
	}
}
