package intake

import (
	"context"
	"encoding/csv"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

const (
	listHeader = "Artikel-Nr.;Hersteller;Abmessungen (mm);Nennspannung;Luftstrom m³/h;Geräusch dB(A)\n"
	goodRows   = "A1;Nordwehe;60x60x25;12 VDC;23,5;28\nA2;Nordwehe;80x80x25;12 VDC;50,5;31\n"
)

// place is a folder with a file to import and a catalogue beside it.
type place struct {
	t    *testing.T
	file string
	cat  string
}

func newPlace(t *testing.T, text string) *place {
	dir := t.TempDir()
	p := &place{t: t, file: filepath.Join(dir, "liste.csv"), cat: filepath.Join(dir, "catalogue")}
	p.write(text)
	return p
}

func (p *place) write(text string) {
	p.t.Helper()
	if err := os.WriteFile(p.file, []byte(text), 0o644); err != nil {
		p.t.Fatal(err)
	}
}

// run imports the file, with changes to the options.
func (p *place) run(change func(*Options)) (Account, error) {
	o := Options{File: p.file, Catalog: p.cat}
	if change != nil {
		change(&o)
	}
	return Run(context.Background(), o)
}

// ok imports the file and fails where that fails.
func (p *place) ok(change func(*Options)) Account {
	p.t.Helper()
	a, err := p.run(change)
	if err != nil {
		p.t.Fatal(err)
	}
	return a
}

// counts are the numbers of an account.
type counts struct {
	Rows, Imported, Rejected, Repeated, Gone, Fans int
	Changed                                        bool
}

func countsOf(a Account) counts {
	return counts{a.Rows, a.Imported, a.Rejected, a.Repeated, a.Gone, a.Fans, a.Changed}
}

func (p *place) wants(a Account, want counts) {
	p.t.Helper()
	if got := countsOf(a); got != want {
		p.t.Errorf("account = %+v, want %+v", got, want)
	}
}

// generation is the name of the live generation.
func (p *place) generation() string {
	b, err := os.ReadFile(filepath.Join(p.cat, "CURRENT"))
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(b))
}

func TestImportAgain(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	p.wants(p.ok(nil), counts{Rows: 2, Imported: 2, Fans: 2, Changed: true})
	first := p.generation()
	p.wants(p.ok(nil), counts{Rows: 2, Repeated: 2, Fans: 2})
	if got := p.generation(); got != first {
		t.Errorf("the same file again made generation %s of %s", got, first)
	}
	p.write(listHeader + "A3;Nordwehe;92x92x25;12 VDC;70;33\n" + strings.Replace(goodRows, "23,5", "24", 1))
	p.wants(p.ok(nil), counts{Rows: 3, Imported: 2, Repeated: 1, Fans: 3, Changed: true})
	p.write(listHeader + "A3;Nordwehe;92x92x25;12 VDC;70;33\n")
	p.wants(p.ok(nil), counts{Rows: 1, Repeated: 1, Gone: 2, Fans: 1, Changed: true})
	p.wants(p.ok(func(o *Options) { o.Source = "other" }), counts{Rows: 1, Imported: 1, Fans: 1, Changed: true})
}

func TestLastRowOfAKeyWins(t *testing.T) {
	p := newPlace(t, listHeader+goodRows+"a 1;NORDWEHE;60x60x25;12 VDC;23,5;29\n"+"A1;Nordwehe;60x60x25;12 VDC;0;29\n")
	p.wants(p.ok(nil), counts{Rows: 4, Imported: 2, Rejected: 1, Repeated: 1, Fans: 2, Changed: true})
	c, err := store.Open(context.Background(), p.cat)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	rows, err := c.Find("Nordwehe", "A1")
	if err != nil || len(rows) != 1 {
		t.Fatalf("Find = %v, %v", rows, err)
	}
	f, err := c.Fan(rows[0])
	if err != nil {
		t.Fatal(err)
	}
	if got, want := f.Source, (catalog.Source{Name: "liste.csv", Line: 4}); got != want || f.Noise.Or(0) != 29 {
		t.Errorf("source %v, noise %v, want %v and the last readable row", got, f.Noise.Or(0), want)
	}
}

func TestRejectsFile(t *testing.T) {
	bad := "A3;Nordwehe;60x6Ox25;12 VDC;23,5;28\n\n\"A4\";Nordwehe;80x80x25;12 VDC\n-A5;Nordwehe;\"60x60\n\";12 VDC;0;28\n"
	p := newPlace(t, listHeader+goodRows+bad)
	a := p.ok(nil)
	p.wants(a, counts{Rows: 5, Imported: 2, Rejected: 3, Fans: 2, Changed: true})
	if want := filepath.Join(p.cat, "rejects-liste.csv"); a.RejectsFile != want {
		t.Errorf("rejects file = %s, want %s", a.RejectsFile, want)
	}
	want := [][]string{
		{"line", "column", "header", "cell", "reason", "hint", "row"},
		{"4", "13", "Abmessungen (mm)", "60x6Ox25", `"Ox" is not understood`, "", "A3;Nordwehe;60x6Ox25;12 VDC;23,5;28"},
		{"6", "", "", "", "the row has 4 cells, the header 6", "the row may be cut off, or a line end inside a cell is not quoted", `"A4";Nordwehe;80x80x25;12 VDC`},
		{"7", "10", "Luftstrom m³/h", "0", "0 m³/h is outside the possible 0.01 to 200000", "leave the cell empty where the value is unknown", "'-A5;Nordwehe;\"60x60\n\";12 VDC;0;28"},
	}
	want[3][0] = "8"
	if diff := cmp.Diff(want, p.records(a.RejectsFile)); diff != "" {
		t.Errorf("rejects (-want +got):\n%s", diff)
	}

	p.write(listHeader + goodRows)
	if a := p.ok(nil); a.RejectsFile != "" {
		t.Errorf("rejects file = %s where nothing was rejected", a.RejectsFile)
	}
	if _, err := os.Stat(filepath.Join(p.cat, "rejects-liste.csv")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the rejects of an earlier import are still there: %v", err)
	}
}

func (p *place) records(file string) [][]string {
	p.t.Helper()
	f, err := os.Open(file)
	if err != nil {
		p.t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		p.t.Fatal(err)
	}
	return records
}

func TestRejectsGoWhereAsked(t *testing.T) {
	p := newPlace(t, listHeader+goodRows+"A3;Nordwehe;rund;12 VDC;23,5;28\n")
	to := filepath.Join(filepath.Dir(p.file), "weg.csv")
	if a := p.ok(func(o *Options) { o.Rejects = to }); a.RejectsFile != to || len(p.records(to)) != 2 {
		t.Errorf("rejects file = %s", a.RejectsFile)
	}
	link := filepath.Join(filepath.Dir(p.file), "link.csv") // as standard output is one on many systems
	if err := os.Symlink(to, link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{p.file, filepath.Dir(p.file), filepath.Join(p.cat, "none", "weg.csv"), link} {
		before, _ := os.ReadFile(p.file)
		_, err := p.run(func(o *Options) { o.Rejects = path })
		after, _ := os.ReadFile(p.file)
		if err == nil || string(before) != string(after) {
			t.Errorf("rejects to %s gave %v", path, err)
		}
	}
}

func TestDryRunWritesNothing(t *testing.T) {
	p := newPlace(t, listHeader+goodRows+"A3;Nordwehe;rund;12 VDC;23,5;28\n")
	dry := func(o *Options) { o.DryRun = true }
	a := p.ok(dry)
	p.wants(a, counts{Rows: 3, Imported: 2, Rejected: 1, Fans: 2})
	if len(a.Rejects) != 1 || a.RejectsFile != "" || len(a.Columns) != 6 {
		t.Errorf("dry run tells %d rejects, file %q, %d columns", len(a.Rejects), a.RejectsFile, len(a.Columns))
	}
	if _, err := os.Stat(p.cat); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a dry run made the catalogue's folder: %v", err)
	}
	p.ok(nil)
	before := snapshot(t, p.cat)
	p.write(listHeader + strings.Replace(goodRows, "23,5", "24", 1))
	p.wants(p.ok(dry), counts{Rows: 2, Imported: 1, Repeated: 1, Fans: 2})
	if diff := cmp.Diff(before, snapshot(t, p.cat)); diff != "" {
		t.Errorf("a dry run changed the catalogue:\n%s", diff)
	}
}

// snapshot lists the files of a folder with their sizes.
func snapshot(t *testing.T, dir string) map[string]int64 {
	t.Helper()
	files := map[string]int64{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		files[path] = info.Size()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// What is refused leaves the old catalogue as it was.
func TestRefusals(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	p.ok(nil)
	before := snapshot(t, p.cat)
	generation := p.generation()
	rows := []struct {
		name, text string
		is         func(error) bool
		want       string
	}{
		{"empty", "", func(err error) bool { return errors.Is(err, tabular.ErrEmpty) }, ""},
		{"header alone", listHeader, func(err error) bool { return errors.Is(err, tabular.ErrNoRows) }, ""},
		{"no parts table", "Datum;Konto;Betrag\n1.1.2026;100;12,00\n", isA[*partscsv.NotPartsError], `not a parts table: no column is the part number, and no column is a frame, a voltage, an airflow or a pressure; its columns are "Datum", "Konto", "Betrag"`},
		{"no text", "\x00\x01\x02\x03PK\x00\x00", func(err error) bool { return errors.Is(err, tabular.ErrNotText) }, ""},
		{"unclosed quote", listHeader + strings.ReplaceAll(goodRows, ",5", "") + "A3;\"Nordwehe;60;12;23;28\n" + strings.ReplaceAll(goodRows, ",5", ""), func(err error) bool { return errors.Is(err, tabular.ErrUnclosedQuote) }, ":4:4: the quote opened on line 4 is not closed"},
		{"nothing usable", listHeader + "A1;Nordwehe;rund;12 VDC;23,5;28\n", isA[*NothingUsableError], `none of 1 rows can be used; line 2, "Abmessungen (mm)": no number in it`},
	}
	for _, r := range rows {
		p.write(r.text)
		_, err := p.run(nil)
		if err == nil || !r.is(err) || !strings.Contains(err.Error(), r.want) {
			t.Errorf("%s: Run = %v, want an error with %q", r.name, err, r.want)
		}
		if got := p.generation(); got != generation {
			t.Errorf("%s: generation %s, want %s", r.name, got, generation)
		}
		if diff := cmp.Diff(before, snapshot(t, p.cat)); diff != "" {
			t.Errorf("%s: the catalogue was changed:\n%s", r.name, diff)
		}
	}
}

// An import that brings no fan does not even make the catalogue's folder.
func TestNothingUsableLeavesNoTrace(t *testing.T) {
	p := newPlace(t, listHeader+"A1;Nordwehe;rund;12 VDC;23,5;28\nA2;Nordwehe;60x60;12 VDC;0;28\n")
	a, err := p.run(nil)
	if !isA[*NothingUsableError](err) || a.Rows != 2 || a.Rejected != 2 || len(a.Rejects) != 2 {
		t.Errorf("Run = %+v, %v", countsOf(a), err)
	}
	if _, err := os.Stat(p.cat); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the catalogue's folder: %v", err)
	}
	to := filepath.Join(filepath.Dir(p.file), "weg.csv")
	if a, err := p.run(func(o *Options) { o.Rejects = to }); !isA[*NothingUsableError](err) || a.RejectsFile != to || len(p.records(to)) != 3 {
		t.Errorf("rejects of an import that brings nothing: %q, %v", a.RejectsFile, err)
	}
}

func isA[E error](err error) bool {
	var e E
	return errors.As(err, &e)
}

func TestFilesThatCannotBeRead(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	for _, file := range []string{filepath.Join(filepath.Dir(p.file), "none.csv"), filepath.Dir(p.file)} {
		if _, err := p.run(func(o *Options) { o.File = file }); err == nil {
			t.Errorf("Run with %s succeeds", file)
		}
	}
	if _, err := p.run(func(o *Options) { o.File = "-" }); err == nil {
		t.Error("Run without standard input succeeds")
	}
}

func TestStandardInput(t *testing.T) {
	p := newPlace(t, "")
	a := p.ok(func(o *Options) { o.File, o.Stdin = "-", strings.NewReader(listHeader+goodRows) })
	p.wants(a, counts{Rows: 2, Imported: 2, Fans: 2, Changed: true})
	if a.Source != "stdin" {
		t.Errorf("source = %q, want stdin", a.Source)
	}
}

// A cancelled import leaves nothing behind, whenever it is cancelled.
func TestCancelled(t *testing.T) {
	var text strings.Builder
	text.WriteString(listHeader)
	for i := range 20 * parcelRows {
		text.WriteString("A" + string(rune('a'+i%26)) + strings.Repeat("x", i/26%50) + string(rune('a'+i/1300)) + ";N;rund;12;23,5;28\n")
	}
	text.WriteString(goodRows + "A9;Nordwehe;rund;12 VDC;23,5;28\n")
	p := newPlace(t, text.String())
	p.ok(nil)
	before := snapshot(t, p.cat)
	temporary := t.TempDir()
	t.Setenv("TMPDIR", temporary)
	for at := range 25 {
		ctx, cancel := context.WithCancel(context.Background())
		steps := 0
		_, err := Run(ctx, Options{File: p.file, Catalog: p.cat, Source: "liste.csv", Progress: func(int, int) {
			if steps++; steps > at {
				cancel()
			}
		}})
		cancel()
		if err != nil && !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled after %d steps: %v", at, err)
		}
		if diff := cmp.Diff(before, snapshot(t, p.cat)); diff != "" {
			t.Errorf("cancelled after %d steps, something is left:\n%s", at, diff)
		}
		if left := snapshot(t, temporary); len(left) > 0 {
			t.Errorf("cancelled after %d steps, temporary files are left: %v", at, left)
		}
	}
}

func TestWarningsAreCounted(t *testing.T) {
	p := newPlace(t, "Model;Size [mm];Voltage [V];Airflow [m³/h];Airflow [CFM];Life [h]\n"+
		"A1;60;12;45;28,5;viel\nA2;60;12;45;26,5;30.000\nA3;60;12;45;28;lang\nA4;60;;;;\nA5;60;12;;;\n")
	a := p.ok(nil)
	want := []partscsv.Warning{
		{Header: "Airflow [CFM]", Reason: "two statements of free airflow differ by more than 3 %", Count: 2, Line: 2},
		{Header: "Life [h]", Reason: "no number in it", Count: 2, Line: 2},
	}
	if diff := cmp.Diff(want, a.Warnings); diff != "" {
		t.Errorf("warnings (-want +got):\n%s", diff)
	}
	lacks := []Lack{{catalog.FieldKind, 5}, {catalog.FieldVoltage, 1}, {catalog.FieldAirflow, 2}, {catalog.FieldStaticPressure, 5}, {catalog.FieldNoise, 5}}
	if diff := cmp.Diff(lacks, a.Lacks); diff != "" || a.Unrankable != 2 {
		t.Errorf("%d not rankable, lacks (-want +got):\n%s", a.Unrankable, diff)
	}
}

// What a fan lacks is counted by the row that stands in the end.
func TestLacksOfOvertakenRows(t *testing.T) {
	p := newPlace(t, "Model;Kind;Size [mm];Voltage [V];Airflow [m³/h];Pressure [Pa];Noise dB(A)\n"+
		"A1;axial;60;12;45;30;\nA2;axial;60;12;;;25\na 1;axial;60;12;45;30;25\nA2;axial;60;12;45;30;\nA3;axial;60;12;45;30;25\nA3;crossflow;60;12;45;30;25\n")
	a := p.ok(nil)
	if diff := cmp.Diff([]Lack{{catalog.FieldNoise, 1}}, a.Lacks); diff != "" || a.Unrankable != 1 || a.Fans != 3 {
		t.Errorf("%d fans, %d not rankable, lacks (-want +got):\n%s", a.Fans, a.Unrankable, diff)
	}
}

func TestForcedFormat(t *testing.T) {
	p := newPlace(t, "x\ny\nModel,Size [mm],Airflow [m³/h]\nA1,60,\"1,5\"\n")
	a := p.ok(func(o *Options) { o.Format = tabular.Options{Decimal: tabular.Comma, HeaderLine: 3, Delimiter: ','} })
	if got := a.Columns[2].Samples[0].Value; got != "free airflow 1.5 m³/h" {
		t.Errorf("with a forced decimal comma \"1,5\" reads %s", got)
	}
	if a.Format.Decimal.Value != tabular.Comma || !a.Format.Decimal.Forced || a.Format.HeaderLine.Value != 3 {
		t.Errorf("format = %+v", a.Format)
	}
}

// A file that a person names for rejected rows is replaced only where it is such
// a list, or empty.
func TestRejectsReplaceNothingElse(t *testing.T) {
	for name, c := range map[string]struct {
		text    string
		refused bool
	}{
		"letter":  {"dear sir", true},
		"half":    {"line,column", true},
		"rejects": {"line,column,header,cell,reason,hint,row\n3,,,,x,,y\n", false},
		"empty":   {"", false},
	} {
		path := filepath.Join(t.TempDir(), "rejects.csv")
		if err := os.WriteFile(path, []byte(c.text), 0o666); err != nil {
			t.Fatal(err)
		}
		_, err := newRejectsFile(&Options{Rejects: path}, "s", &input{})
		if got := err != nil; got != c.refused {
			t.Errorf("%s: refused %v (%v), want %v", name, got, err, c.refused)
		}
	}
}
