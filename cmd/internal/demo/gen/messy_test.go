package gen

import (
	"bytes"
	"encoding/csv"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// record is one row of the untidy list as the standard library's reader sees it.
type record struct {
	line  int
	cells []string
}

func (r record) cell(header string) string {
	if i := at(header); i < len(r.cells) {
		return r.cells[i]
	}
	return ""
}

func messyBytes(t *testing.T, specs []Spec) ([]byte, Account) {
	t.Helper()
	var out bytes.Buffer
	account, err := WriteMessy(&out, specs, DemoSeed)
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), account
}

// records reads the list; the first two are the titles, the third the header.
func records(t *testing.T, list []byte) []record {
	t.Helper()
	reader := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(list, []byte(utf8BOM))))
	reader.Comma, reader.FieldsPerRecord = delimiter, -1
	var out []record
	for {
		cells, err := reader.Read()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		line, _ := reader.FieldPos(0)
		out = append(out, record{line, cells})
	}
}

func demo(t *testing.T) ([]Spec, []record, Account) {
	t.Helper()
	specs := Catalogue(DemoSeed, DemoRows)
	list, account := messyBytes(t, specs)
	return specs, records(t, list), account
}

func TestCommittedListIsTheGenerators(t *testing.T) {
	got, err := os.ReadFile("../catalogue.csv")
	if err != nil {
		t.Fatal(err)
	}
	want, _ := messyBytes(t, Catalogue(DemoSeed, DemoRows))
	if !bytes.Equal(got, want) {
		t.Error("catalogue.csv is not what the generator writes: run go generate in this folder, and look at the difference")
	}
}

func TestListBegins(t *testing.T) {
	list, _ := messyBytes(t, Catalogue(DemoSeed, DemoRows))
	lines := strings.SplitN(string(list), lineEnd, 5)
	if !strings.HasPrefix(lines[0], utf8BOM+"Toernsund Bauteile") || !strings.HasPrefix(lines[1], `"Stand 03/2026; `) || lines[2] != "" || !strings.HasPrefix(lines[3], "Pos.;") {
		t.Errorf("the list begins with %q, want two titles, a blank line, the header", lines[:4])
	}
	if got := records(t, list)[2]; got.line != 4 || !slices.Equal(got.cells, headers()) {
		t.Errorf("header at line %d = %q", got.line, got.cells)
	}
}

func TestAccountIsTrue(t *testing.T) {
	for _, n := range []int{DemoRows, 2000} {
		specs := Catalogue(DemoSeed, n)
		list, account := messyBytes(t, specs)
		all := records(t, list)[3:]
		bad := map[int]BadRow{}
		for _, b := range account.Bad {
			bad[b.Line] = b
		}
		last, repeated := map[string]record{}, 0
		for _, r := range all {
			if b, ok := bad[r.line]; ok {
				if b.Header != "" && r.cell(b.Header) != b.Cell {
					t.Errorf("line %d: %q = %q, want %q (%s)", r.line, b.Header, r.cell(b.Header), b.Cell, b.Reason)
				}
				delete(bad, r.line)
				continue
			}
			key := fold(r.cell("Hersteller")) + "|" + fold(r.cell("Typ / type"))
			if _, ok := last[key]; ok {
				repeated++
			}
			last[key] = r
		}
		if len(all) != account.Rows || repeated != account.Repeated || len(bad) != 0 || len(last) != n {
			t.Errorf("n = %d: %d rows, %d repeated, %d fans, bad rows not met: %v; account: %d rows, %d repeated, want them equal and %d fans",
				n, len(all), repeated, len(last), bad, account.Rows, account.Repeated, n)
		}
		if account.Rows != n+account.Repeated+len(account.Bad) {
			t.Errorf("n = %d: rows %d ≠ fans + repeated %d + bad %d", n, account.Rows, account.Repeated, len(account.Bad))
		}
	}
}

// Each bad row has one reason; the same reason comes twice only where the plan wants it.
func TestBadRowsAreAllThere(t *testing.T) {
	_, all, account := demo(t)
	if len(account.Bad) != len(defects()) {
		t.Fatalf("%d bad rows, want %d", len(account.Bad), len(defects()))
	}
	cells := map[string]bool{}
	for i, b := range account.Bad {
		if b.Reason != defects()[i].reason || i > 0 && b.Line <= account.Bad[i-1].Line {
			t.Errorf("bad row %d at line %d: %q, want %q below line %d", i, b.Line, b.Reason, defects()[i].reason, account.Bad[max(i-1, 0)].Line)
		}
		if key := b.Header + "|" + b.Cell + "|" + b.Reason; cells[key] {
			t.Errorf("bad row twice: %s", key)
		} else {
			cells[key] = true
		}
	}
	widths := map[string]func(int) bool{
		"too few cells: the row breaks off":                    func(n int) bool { return n < len(columns) },
		"too many cells: a delimiter in a text without quotes": func(n int) bool { return n > len(columns) },
	}
	for _, b := range account.Bad {
		r := all[slices.IndexFunc(all, func(r record) bool { return r.line == b.Line })]
		right := func(n int) bool { return n >= len(columns) }
		if w := widths[b.Reason]; w != nil {
			right = w
		}
		if !right(len(r.cells)) {
			t.Errorf("line %d (%s) has %d cells of %d", b.Line, b.Reason, len(r.cells), len(columns))
		}
	}
}

// What design and trade ask a list of bad rows to hold, written down apart from the list itself.
func TestBadRowsCoverTheReasons(t *testing.T) {
	_, _, account := demo(t)
	for _, want := range []BadRow{
		{Header: "Luftmenge\nm³/h", Cell: "0"}, {Header: "Luftmenge\nm³/h", Cell: "-24"}, {Header: "Luftmenge\nm³/h", Cell: "#WERT!"},
		{Header: "Luftmenge\nm³/h", Cell: "25. Jun"}, {Header: "Luftmenge\nm³/h", Cell: "25 m³/h (42 CFM)"},
		{Header: "stat. Druck Pa", Cell: "siehe Diagramm"}, {Header: "stat. Druck Pa", Cell: "35 Pa (12 mmH2O)"},
		{Header: "Geräusch dB(A)", Cell: "0"}, {Header: "Geräusch dB(A)", Cell: "3,9"}, {Header: "Geräusch dB(A)", Cell: "28 °C"},
		{Header: "Abmessungen [mm]", Cell: "60x6Ox25"}, {Header: "Abmessungen [mm]", Cell: "rund, siehe Zeichnung"},
		{Header: "Umin [V]", Cell: "13,8"}, {Header: "Nennspannung", Cell: "12 W"}, {Header: "Bauart", Cell: "Wasserpumpe"}, {Header: "Bauart", Cell: "Bauart"},
		{Header: "Typ / type", Cell: ""}, {Header: "", Cell: ""},
		{Header: "Kennlinie (m³/h:Pa)", Cell: "0:130; 10-95; 20:70; 48:0"}, {Header: "Kennlinie (m³/h:Pa)", Cell: "0:130; 20:95; 15:60; 48:0"},
	} {
		if !slices.ContainsFunc(account.Bad, func(b BadRow) bool { return b.Header == want.Header && b.Cell == want.Cell }) {
			t.Errorf("no bad row with %q = %q", want.Header, want.Cell)
		}
	}
	for _, b := range account.Bad {
		if b.Reason == "" {
			t.Errorf("line %d is bad for no reason", b.Line)
		}
	}
}

// The sections' headings stand before what they announce, and the total is the last row.
func TestSectionsStandWhereTheyBelong(t *testing.T) {
	_, all, _ := demo(t)
	for i, r := range all {
		switch {
		case strings.HasPrefix(r.cells[0], "*** AC"):
			if next := all[i+1]; next.cell("Hersteller") != "Veltriva" || next.cell("AC/DC") != "AC" {
				t.Errorf("line %d: after the AC heading comes %q", r.line, next.cells[:5])
			}
		case strings.HasPrefix(r.cells[0], "*** Radial"):
			if next := all[i+1]; next.cell("Hersteller") != "Marnfeld" {
				t.Errorf("line %d: after the blowers' heading comes %q", r.line, next.cells[:5])
			}
		}
	}
	if got := all[len(all)-1].cell("Hersteller"); got != "Summe Bestand" {
		t.Errorf("last row is %q, want the total", got)
	}
}

func TestRepeatsComeBeforeTheirLastRow(t *testing.T) {
	_, all, account := demo(t)
	same, cheaper := 0, 0
	for i, r := range all[3:] {
		for _, later := range all[3+i+1:] {
			if fold(r.cell("Typ / type")) != fold(later.cell("Typ / type")) || r.cell("Typ / type") == "" {
				continue
			}
			if slices.Equal(trimmed(r.cells), trimmed(later.cells)) {
				same++
			} else if r.cell("Preis netto") != later.cell("Preis netto") {
				cheaper++
			}
		}
	}
	if same < 2 || cheaper < 6 || same+cheaper > account.Repeated {
		t.Errorf("%d rows exactly twice, %d with an older price, of %d repeated: want at least 2 and 6", same, cheaper, account.Repeated)
	}
}

// trimmed drops surplus empty cells.
func trimmed(cells []string) []string {
	for len(cells) > 0 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	return cells
}

func TestEveryKindOfMessIsThere(t *testing.T) {
	_, all, _ := demo(t)
	surplus := 0
	for _, r := range all[3:] {
		if len(r.cells) > len(columns) {
			surplus++
		}
	}
	if surplus < 30 {
		t.Errorf("%d rows with surplus cells, want at least 30", surplus)
	}
	for _, row := range []struct {
		header, pattern string
		want            int
	}{
		{"Abmessungen [mm]", `^\d+x\d+x\d+$`, 60}, {"Abmessungen [mm]", `^\d+ × \d+ × \d+ mm$`, 30}, {"Abmessungen [mm]", `^\d+\*\d+\*\d+$`, 10},
		{"Abmessungen [mm]", `^□\d+×\d+$`, 30}, {"Abmessungen [mm]", `^\d+X\d+X\d+$`, 5}, {"Abmessungen [mm]", `\d/\d+"`, 10},
		{"Nennspannung", `^\d+$`, 50}, {"Nennspannung", `^\d+ V DC$`, 30}, {"Nennspannung", `^DC\d+V$`, 30}, {"Nennspannung", `~$`, 20},
		{"Nennspannung", `^\d+ \(\d+–\d+(,\d+)?\)$`, 15}, {"Umin [V]", `^\d+$`, 100},
		{"Strom [A]", `^0\.\d+$`, 200}, {"Strom [A]", ` mA$`, 40}, {"Leistung (W)", ` W$`, 20},
		{"Luftmenge\nm³/h", `^\d+,\d+$`, 80}, {"Luftmenge\nm³/h", ` m³/h$`, 30}, {"Luftmenge\nm³/h", `^[\d,]+ CFM$`, 5},
		{"Luftmenge\nm³/h", `^[\d,]+ m³/h \([\d,]+ CFM\)$`, 8}, {"Luftmenge\nm³/h", ` m³/min$`, 8}, {"Luftmenge\nm³/h", ` l/s$`, 1}, {"Luftmenge\nm³/h", `\d–\d`, 2},
		{"stat. Druck Pa", ` Pa$`, 40}, {"stat. Druck Pa", ` mmH2O$`, 15}, {"stat. Druck Pa", ` Pa \([\d,]+ mmH₂O\)$`, 8}, {"stat. Druck Pa", ` inH2O$`, 15},
		{"stat. Druck Pa", `^(-|n/a|k\. A\.|tbd|on request)$`, 8}, {"Geräusch dB(A)", `^(-|n/a|k\. A\.|tbd|on request)$`, 3},
		{"Drehzahl 1/min", `^\d\.\d{3}$`, 40}, {"Drehzahl 1/min", ` ±10 %$`, 5}, {"Drehzahl 1/min", ` rpm$`, 8},
		{"Geräusch dB(A)", `\d–\d`, 5}, {"Geräusch dB(A)", `LwA \d|\d dB\(A\) LwA`, 20}, {"Geräusch dB(A)", `^[\d,]+ (B|bel)( LwA)?$`, 20}, {"Geräusch dB(A)", ` dBA$`, 8},
		{"Oktavpegel 63 Hz [dB]", `^\d+(,\d)?$`, 15}, {"Oktavpegel 8 kHz [dB]", `^\d+(,\d)?$`, 20}, {"Oktavpegel 1 kHz [dB]", `^$`, 400},
		{"Kennlinie (m³/h:Pa)", `^0:[\d,]+(; [\d,]+:[\d,]+)+$`, 120}, {"Adern / leads", `Litzen|adrig|wire`, 100}, {"Tacho Imp./U", `^Alarm$`, 6},
		{"Lebensdauer [h]", `^\d+\.000$`, 150}, {"Lebensdauer [h]", `^\d{5}$`, 20}, {"Umgebungstemp. max. °C", `^-10…\+\d+ °C$`, 8},
		{"Lagerbestand", `^\d\.\d{3}$`, 2}, {"Preis netto", ` €$`, 10}, {"Preis netto", ` USD$`, 8}, {"Preis netto", `^(auf Anfrage|on request|-)$`, 3},
		{"Bezeichnung / description", "\n", 10}, {"Bezeichnung / description", `; `, 15}, {"Bemerkung", `^[=+]`, 5}, {"Hersteller", `^[A-Z]+ $`, 6},
	} {
		pattern, got := regexp.MustCompile(row.pattern), 0
		for _, r := range all[3:] {
			if pattern.MatchString(r.cell(row.header)) {
				got++
			}
		}
		if got < row.want {
			t.Errorf("%q: %d cells match %s, want at least %d", row.header, got, row.pattern, row.want)
		}
	}
}
