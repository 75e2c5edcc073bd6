package partscsv

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
	"lowsone/testdata/sources"
)

// eightPairs are eightLevels as the tool's own CSV has them.
const eightPairs = "63:45.2;125:48.2;250:52.2;500:54.1;1000:49.3;2000:46.6;4000:41.8;8000:38.3"

// readBands reads the row of a table of one row: what it says, its warnings and
// all its remarks.
func readBands(t *testing.T, mark tabular.Mark, text string, assign ...Assignment) (fan *catalog.Fan, warnings, remarks string) {
	t.Helper()
	p, rows := planOf(t, mark, text, assign...)
	fan, list, err := p.Reader().Read(rows[0])
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	var told, all []string
	for _, m := range list {
		all = append(all, m.Text)
		if m.Warning != "" {
			told = append(told, m.Warning)
		}
	}
	return fan, strings.Join(told, " / "), strings.Join(all, " / ")
}

// Pairs are read in any form in which people write them.
func TestPairsCells(t *testing.T) {
	const want = "125:48.2;250:52.2;500:54.1;1000:49.3;2000:46.6;4000:41.8"
	for _, r := range []struct {
		name, cell string
		mark       tabular.Mark
	}{
		{"own", want, tabular.Point},
		{"any order", "4000:41.8;125:48.2;250:52.2;500:54.1;2000:46.6;1000:49.3", tabular.Point},
		{"units", "125 Hz: 48.2 dB; 250 Hz: 52.2 dB; 500 Hz: 54.1 dB; 1 kHz: 49.3 dB; 2 kHz: 46.6 dB; 4 kHz: 41.8 dB", tabular.Point},
		{"k and bars", "125/48.2 | 250/52.2 | 500/54.1 | 1k/49.3 | 2k/46.6 | 4k/41.8", tabular.Point},
		{"equals and commas", "125=48.2, 250=52.2, 500=54.1, 1000=49.3, 2000=46.6, 4000=41.8", tabular.Point},
		{"decimal comma", "125:48,2;250:52,2;500:54,1;1000:49,3;2000:46,6;4000:41,8", tabular.Comma},
		{"brackets", "125 Hz (48.2 dB), 250 Hz (52.2 dB), 500 Hz (54.1 dB), 1 kHz (49.3 dB), 2 kHz (46.6 dB), 4 kHz (41.8 dB)", tabular.Point},
		{"level first", "48.2 dB @ 125 Hz; 52.2 dB @ 250 Hz; 54.1 dB @ 500 Hz; 49.3 dB @ 1 kHz; 46.6 dB @ 2 kHz; 41.8 dB @ 4 kHz", tabular.Point},
		{"lines", "125 Hz 48.2\n250 Hz 52.2\n500 Hz 54.1\n1 kHz 49.3\n2 kHz 46.6\n4 kHz 41.8", tabular.Point},
		{"words", "Lw: 125 Hz = 48.2 dB; octave 250 Hz = 52.2; 500: 54.1; 1000: 49.3; 2000: 46.6; 4000: 41.8 dB", tabular.Point},
		{"exact and other names", "125.9:48.2;251.2:52.2;500:54.1;1024:49.3;2k:46.6;4000:41.8", tabular.Point},
		{"bels", "125: 4.82 B; 250: 5.22 B; 500: 5.41 B; 1000: 4.93 B; 2000: 4.66 B; 4000: 4.18 B", tabular.Point},
	} {
		header, row := []string{"Part", "Frame", "Noise [dB(A)]", "Octave band levels [dB]"}, []string{"A1", "60", "55", r.cell}
		p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: [][]string{row}, Marks: marksOf(r.mark, len(header))})
		if err != nil {
			t.Fatal(err)
		}
		fan, remarks, err := p.Reader().Read(row)
		if err != nil || catalog.FormatBands(fan.NoiseBands) != want || len(remarks) > 0 {
			t.Errorf("%s: %q reads as %s, %v, %v; want %q", r.name, r.cell, said(fan), remarks, err, want)
		}
	}
}

// Headers by which a column of pairs is known, and what they say of it.
func TestPairsHeaders(t *testing.T) {
	for _, r := range []struct {
		header string
		said   weighting
		kind   catalog.NoiseKind
	}{
		{"noise_bands", weightUnsaid, 0}, {"Octave band levels", weightUnsaid, 0}, {"Third octave spectrum dB(A)", weightA, 0},
		{"Sound spectrum (unweighted)", weightNone, 0}, {"Sound power spectrum", weightUnsaid, catalog.NoisePower}, {"Spectrum", weightUnsaid, 0},
		{"Oktavpegel", weightUnsaid, 0}, {"Terzpegel [dB(A)]", weightA, 0}, {"Terzspektrum", weightUnsaid, 0}, {"Oktavpegel LwA", weightA, catalog.NoisePower},
		{"Schallspektrum A-bewertet", weightA, 0}, {"Spectre par bande d'octave", weightUnsaid, 0}, {"Spectre sonore (Lp) en dB", weightUnsaid, catalog.NoisePressure},
		{"Niveaux par tiers d'octave pondérés A", weightA, 0}, {"Espectro sonoro", weightUnsaid, 0}, {"Espectro por bandas de octava, lineal", weightNone, 0},
		{"Niveles por tercios de octava", weightUnsaid, 0}, {"Octave band sound power level 63 Hz to 8 kHz [dB]", weightUnsaid, catalog.NoisePower},
	} {
		p, _ := planOf(t, tabular.Point, "Part|Frame|"+r.header+"\nA1|60|"+eightPairs)
		c := p.columns[2]
		if !c.taken || c.field != catalog.FieldNoiseBands || c.weight != r.said || c.noiseKind != r.kind {
			t.Errorf("%q: taken %v for %s, weighting %d, kind %v; want weighting %d, kind %v (%s)", r.header, c.taken, c.def().Name, c.weight, c.noiseKind, r.said, r.kind, p.reports[2].Why)
		}
		notes := strings.Join(p.reports[2].Notes, "; ")
		if want := map[weighting]string{weightUnsaid: "name no weighting", weightA: "the weighting is taken off", weightNone: ""}[r.said]; r.header != "noise_bands" && !strings.Contains(notes, want) {
			t.Errorf("%q: notes %q, want %q", r.header, notes, want)
		}
	}
	for _, header := range []string{"Octave band levels", "Oktavpegel", "Spectre"} {
		p, _ := planOf(t, tabular.Point, "Part|Frame|"+header+"\nA1|60|see figure 3\nA2|60|see figure 4")
		if p.columns[2].taken {
			t.Errorf("%q without pairs is taken for %s", header, p.columns[2].def().Name)
		}
	}
}

// What band levels cannot be is told with the band and the mend; the row stays.
func TestUnfitBands(t *testing.T) {
	for _, r := range []struct{ name, pairs, want string }{
		{"missing in the middle", "63:45;125:48;250:52;1000:49;2000:46;4000:41", `octaves between others are missing: "500" Hz; state every band`},
		{"twice", "125:48;250:52;500:54;500:53;1000:49;2000:46;4000:41", `the band at "500" Hz stands there twice; state each band once`},
		{"too loud", "125:48;250:152;500:54;1000:49;2000:46;4000:41", "the level at 250 Hz is above 130 dB; check the unit"},
		{"too few", "250:52;500:54;1000:49;2000:46;4000:41", `too few octaves: from 125 Hz to 4 kHz all are needed, not given: "125" Hz; state them too`},
		{"no band", "125:48;250:52;550:54;1000:49;2000:46;4000:41", "no band lies at a frequency that stands there; name bands by their mid-band frequency"},
		{"mixed", "125:48;250:52;500:54;630:50;1000:49;2000:46;4000:41", "octaves and third octaves are mixed"},
		{"two frequencies", "125 Hz: 250 Hz", notPairs},
		{"two levels", "48 dB: 52 dB", notPairs},
		{"no pairs", "125:48;250", notPairs + "; write mid-band frequency"},
		{"a word", "125:48;250:quiet", `"quiet" is not understood; write mid-band frequency`},
	} {
		fan, warnings, remarks := readBands(t, tabular.Point, "Part|Frame|Noise [dB(A)]|noise_bands\nA1|60|55|"+r.pairs)
		if len(fan.NoiseBands) > 0 || !strings.Contains(warnings, r.want) || !strings.HasSuffix(remarks, "taken as unknown") || fan.Noise.Or(0) != 55 {
			t.Errorf("%s: %s\nwarns %q, want %q; bands %v", r.name, said(fan), warnings, r.want, fan.NoiseBands)
		}
	}
	// In columns a cell that cannot be read takes the spectrum with it, an empty
	// one at an end does not.
	for _, r := range []struct{ name, levels, bands, want string }{
		{"a word", "45|48|52|loud|49|46|41|38", "", `no number in it; the bands of the row are unknown`},
		{"at least", "45|48|52|>54|49|46|41|38", "", "says only the least the level may be"},
		{"a word at the end", "loud|48|52|54|49|46|41|38", "", "no number in it; the bands of the row are unknown"},
		{"at least at the end", ">45|48|52|54|49|46|41|38", "", "says only the least the level may be"},
		{"one A-weighted by its cell", "|48|52|54|49 dB|46|41|36.9 dB(A)", "125:48;250:52;500:54;1000:49;2000:46;4000:41;8000:38.01", ""},
		{"a gap", "45|48|52|-|49|46|41|38", "", `octaves between others are missing: "500" Hz`},
		{"ends", "|48|52|54|49|46|41|", "125:48;250:52;500:54;1000:49;2000:46;4000:41", ""},
		{"none", "|||-|||-|n/a", "", ""},
		{"a range", "|48|52|53-54|49|46|41|", "125:48;250:52;500:54;1000:49;2000:46;4000:41", ""},
	} {
		fan, warnings, _ := readBands(t, tabular.Point, "Part|Frame|noise_dba|"+octaves+"\nA1|60|55|"+r.levels+"\nA2|60|55|"+eightLevels)
		if got := catalog.FormatBands(fan.NoiseBands); got != r.bands || (r.want == "") != (warnings == "") || !strings.Contains(warnings, r.want) {
			t.Errorf("%s: bands %q, warns %q; want %q, %q", r.name, got, warnings, r.bands, r.want)
		}
	}
}

// The bands' sum is held against the level, and is it where none is stated.
func TestSumOfBands(t *testing.T) {
	weigh := func(pairs string) string { // A-weighted
		bands, err := catalog.ParseBands(pairs)
		if err != nil {
			t.Fatal(err)
		}
		for i := range bands {
			bands[i].Level += aWeighting(bands[i].Frequency)
		}
		return catalog.FormatBands(bands)
	}
	const low = "63:60;125:58;250:50;500:40;1000:35;2000:30;4000:25;8000:20" // sums to 45.9 dB(A), adds to 62.5 dB
	for _, r := range []struct{ name, header, level, pairs, want, bands string }{
		{"meets", "Spectrum", "55", eightPairs, "", eightPairs},
		{"within 3 dB", "Spectrum", "52.1", eightPairs, "", eightPairs},
		{"beyond 3 dB", "Spectrum", "51.9", eightPairs, "the A-weighted sum of the bands and the level are more than 3 dB apart", eightPairs},
		{"A-weighted, as said", "Spectrum dB(A)", "45.9", weigh(low), "", low},
		{"A-weighted, not said", "Spectrum", "45.9", weigh(low), "apart; taken as A-weighted the bands meet the level: if they are, write dB(A) into the header", weigh(low)},
		{"unweighted, said A-weighted", "Spectrum dB(A)", "45.9", low, "apart; taken as unweighted the bands meet the level: if they are, write dB into the header", ""},
		{"unweighted is the level", "Spectrum dB(A)", "62.5", weigh(low), "the A-weighted sum of the bands and the level are more than 3 dB apart", low},
		{"no level", "Spectrum", "", eightPairs, "no level is stated: the A-weighted sum of the bands is taken", eightPairs},
		{"no level possible", "Spectrum", "", "125:0;250:0;500:0;1000:0;2000:0;4000:0", "is none that is possible", "125:0;250:0;500:0;1000:0;2000:0;4000:0"},
	} {
		fan, warnings, remarks := readBands(t, tabular.Point, "Part|Frame|Noise|"+r.header+"\nA1|60|"+r.level+"|"+r.pairs)
		if (r.want == "") != (warnings == "") || !strings.Contains(warnings, r.want) || strings.Contains(warnings, ";") && !strings.Contains(r.want, ";") {
			t.Errorf("%s: warns %q, want %q (%s)", r.name, warnings, r.want, remarks)
		}
		if r.bands != "" && !nearBands(fan.NoiseBands, r.bands, 0.011) {
			t.Errorf("%s: bands %s, want %s", r.name, catalog.FormatBands(fan.NoiseBands), r.bands)
		}
		if r.name == "no level" && (math.Abs(float64(fan.Noise.Or(0))-55) > 0.05 || fan.Noise.Origin() != quantity.Cell) {
			t.Errorf("%s: level %v of origin %v, want 55, measured", r.name, fan.Noise.Or(0), fan.Noise.Origin())
		}
	}
}

// nearBands compares band levels, to so many dB.
func nearBands(got []quantity.BandLevel, want string, tol float64) bool {
	list, err := catalog.ParseBands(want)
	return err == nil && slices.EqualFunc(got, list, func(a, b quantity.BandLevel) bool {
		return a.Frequency == b.Frequency && math.Abs(float64(a.Level-b.Level)) <= tol
	})
}

// What bands are, and what the level is, come to one footing.
func TestFootingOfBands(t *testing.T) {
	at := func(shift float64) string {
		bands, _ := catalog.ParseBands(eightPairs)
		for i := range bands {
			bands[i].Level += quantity.Decibel(shift)
		}
		return catalog.FormatBands(bands)
	}
	toTwo := 20 * math.Log10(2)
	for _, r := range []struct{ name, noise, level, header, want, bands, warning string }{
		{"power for both", "LwA [dB]", "55", "Lw spectrum", "power", eightPairs, ""},
		{"power, at a distance that it has not", "LwA [dB]", "55", "Lw spectrum 1 m", "power", eightPairs, ""},
		{"a distance makes a pressure", "LwA [dB]", "66", "Spectrum 1 m", "power", at(11), "the bands are a sound pressure at 1 m"},
		{"power said by the bands", "Noise", "55", "Lw spectrum", "power", eightPairs, ""},
		{"power said by the bands alone", "Noise", "", "Lw spectrum", "power", eightPairs, "no level is stated"},
		{"pressure and distance said by the bands", "Noise", "55", "Lp spectrum @ 2 m", "pressure 2", eightPairs, ""},
		{"power beside pressure", "LpA [dB]", "44", "Lw spectrum", "pressure", at(-11), "the bands are a sound power, the level is a sound pressure at 1 m: the bands are brought to that"},
		{"power beside pressure at 2 m", "LpA 2 m [dB]", "38", "Lw spectrum", "pressure 2", at(-11 - toTwo), "a sound pressure at 2 m"},
		{"power beside a silent level that is a pressure", "Noise", "44", "Lw spectrum", "", at(-11), "the bands are a sound power, the level is a sound pressure at 1 m"},
		{"power beside a silent level that it does not meet", "Noise", "30", "Lw spectrum", "power", eightPairs, "more than 3 dB apart"},
		{"power beside pressure that is one too", "LpA [dB]", "55", "Lw spectrum", "pressure", at(-11), "apart; as they stood the bands meet the level"},
		{"pressure beside power", "LwA [dB]", "66", "Lp spectrum", "power", at(11), "the bands are a sound pressure at 1 m, the level is a sound power"},
		{"pressure at 2 m beside power", "LwA [dB]", "72", "Lp spectrum 2 m", "power", at(11 + toTwo), "the bands are a sound pressure at 2 m"},
		{"two distances", "LpA 1 m [dB]", "61", "Lp spectrum 2 m", "pressure 1", at(toTwo), "the bands are a sound pressure at 2 m, the level is a sound pressure at 1 m"},
		{"a distance beside a silent level of another", "Noise", "61", "Lp spectrum 2 m", "", at(toTwo), "brought to that"},
	} {
		fan, warnings, _ := readBands(t, tabular.Point, "Part|Frame|"+r.noise+"|"+r.header+"\nA1|60|"+r.level+"|"+eightPairs)
		footing := fan.NoiseKind.Or(0).String()
		if m, ok := fan.NoiseDistance.Get(); ok {
			footing += " " + catalog.Number(float64(m))
		}
		if footing != r.want || !nearBands(fan.NoiseBands, r.bands, 0.006) || (warnings == "") != (r.warning == "") || !strings.Contains(warnings, r.warning) {
			t.Errorf("%s: %s\nlevel is %q, want %q; warns %q, want %q; bands %s, want %s", r.name, said(fan), footing, r.want, warnings, r.warning, catalog.FormatBands(fan.NoiseBands), r.bands)
		}
	}
}

// A-weighted levels equal to the published weighting are 0 dB without it, to the
// last digit printed: IEC 61672-1, table of weightings.
func TestPublishedWeightingIsTakenOff(t *testing.T) {
	var header, levels []string
	for _, row := range sources.Records[map[string]string](t, "sound_weighting_iec61672.csv") {
		hz, err := strconv.ParseFloat(row["nominal_hz"], 64)
		if err != nil {
			t.Fatal(err)
		}
		if hz < 100 || hz > 8000 {
			continue
		}
		header, levels = append(header, row["nominal_hz"]+" Hz [dB(A)]"), append(levels, row["A_table_db"])
	}
	if len(header) != 20 {
		t.Fatalf("%d third octaves from 100 Hz to 8 kHz", len(header))
	}
	fan, _, _ := readBands(t, tabular.Point, "Part|Frame|"+strings.Join(header, "|")+"\nA1|60|"+strings.Join(levels, "|"))
	if len(fan.NoiseBands) != 20 {
		t.Fatalf("bands %v", fan.NoiseBands)
	}
	for _, b := range fan.NoiseBands {
		if const1 := 0.05 + 0.005; math.Abs(float64(b.Level)) > const1 { // half a digit, and the rounding of the result
			t.Errorf("unweighted(A at %v Hz) = %v, want 0 ± 0.05 (IEC 61672-1)", b.Frequency, b.Level)
		}
	}
}

// What one header says holds for the bands whose headers say nothing.
func TestOneHeaderSaysForAll(t *testing.T) {
	fan, _, _ := readBands(t, tabular.Point, "Part|Frame|Noise|LwA 125 Hz|250 Hz|500 Hz|1 kHz|2 kHz|4 kHz\nA1|60|50|32.1|43.6|50.8|49.3|47.8|42.8")
	if !nearBands(fan.NoiseBands, "125:48.2;250:52.2;500:54.1;1000:49.3;2000:46.6;4000:41.8", 0.08) || fan.NoiseKind.Or(0) != catalog.NoisePower {
		t.Errorf("reads as %s", said(fan))
	}
}

// Samples show what one cell gives; columns of bands have a say in the decimal
// mark.
func TestBandReports(t *testing.T) {
	header, rows := table("Part|Frame|125 Hz dB(A)|250 Hz|500 Hz|1 kHz|2 kHz|4 kHz\nA1|60|32,1|43,6|50,8|49,3|47,8|42,8\nA2|60|30|41|49|47|46|41")
	var voted []int
	marks := func(votes func(int) bool) []tabular.Mark {
		voted = nil
		for i := range header {
			if votes(i) {
				voted = append(voted, i)
			}
		}
		return slices.Repeat([]tabular.Mark{tabular.Comma}, len(header))
	}
	p, err := NewPlan(Input{File: "f.csv", Header: header, Sample: rows, Marks: marks})
	if err != nil {
		t.Fatal(err)
	}
	c := p.Columns()[2]
	want := []Sample{{Cell: "32,1", Value: "noise by bands 48.2 dB"}, {Cell: "30", Value: "noise by bands 46.1 dB"}}
	if !slices.Equal(c.Samples, want) || c.Unit != "dB(A)" || c.Decimal != "," || len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "the weighting is taken off") {
		t.Errorf("column %+v, want samples %+v in dB(A)", c, want)
	}
	if want := []int{1, 2, 3, 4, 5, 6, 7}; !slices.Equal(voted, want) {
		t.Errorf("columns %v have a say in the decimal mark, want %v", voted, want)
	}
}

// A fan keeps its bands when the next row is read, and warnings name the lowest
// band.
func TestBandsStayWithTheirFan(t *testing.T) {
	p, rows := planOf(t, tabular.Point, "Part|Frame|"+octaves+"\nA1|60|"+eightLevels+"\nA2|60|1|2|3|4|5|6|7|8")
	r := p.Reader()
	first, _, err := r.Read(rows[0])
	if err != nil {
		t.Fatal(err)
	}
	_, remarks, err := r.Read(rows[1])
	if err != nil || len(remarks) == 0 || remarks[0].Column != 2 {
		t.Fatalf("remarks %+v, %v, want one on column 2", remarks, err)
	}
	if got := catalog.FormatBands(first.NoiseBands); got != eightPairs {
		t.Errorf("bands of the first row are %s once the second is read, want %s", got, eightPairs)
	}
}

// Property: pairs and columns, weighted or not, give the same spectrum.
func TestBandFormsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bands := drawBands(t)
		weighted := rapid.Bool().Draw(t, "weighted")
		header, levels, unit := "", "", "dB"
		if weighted {
			unit = "dB(A)"
		}
		var pairs []string
		for _, b := range bands {
			level := float64(b.Level)
			if weighted {
				level += float64(aWeighting(b.Frequency))
			}
			header += fmt.Sprintf("|%s Hz [%s]", catalog.Number(float64(b.Frequency)), unit)
			levels += "|" + catalog.Number(level)
			pairs = append(pairs, catalog.Number(float64(b.Frequency))+":"+catalog.Number(level))
		}
		for form, text := range map[string]string{
			"columns": "Part|Frame|noise_dba" + header + "\nA1|60|50" + levels,
			"pairs":   "Part|Frame|noise_dba|Spectrum [" + unit + "]\nA1|60|50|" + strings.Join(pairs, ";"),
		} {
			head, rows := table(text)
			p, err := NewPlan(Input{File: "f.csv", Header: head, Sample: rows, Marks: marksOf(tabular.Point, len(head))})
			if err != nil {
				t.Fatal(err)
			}
			fan, _, err := p.Reader().Read(rows[0])
			if err != nil {
				t.Fatal(err)
			}
			if !nearBands(fan.NoiseBands, catalog.FormatBands(bands), 0.006) {
				t.Fatalf("%s of %s read as %s, want %s", form, unit, catalog.FormatBands(fan.NoiseBands), catalog.FormatBands(bands))
			}
		}
	})
}
