package intake

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

// stated is all that an export keeps of a fan.
type stated struct {
	Values []string // field, origin and text
	Extra  []catalog.Extra
}

// statedOf gives the fans of a source, or all.
func statedOf(t fataler, dir, source string) (fans []stated) {
	t.Helper()
	c, err := store.Open(context.Background(), dir)
	if err != nil {
		t.Fatalf("%v", err)
	}
	defer c.Close()
	err = c.Each(context.Background(), source, func(_ int, f *catalog.Fan) error {
		s := stated{Extra: f.Extra}
		for i := range catalog.Fields {
			d := &catalog.Fields[i]
			if text := d.Format(f); text != "" {
				_, origin := d.Get(f)
				s.Values = append(s.Values, fmt.Sprint(d.Name, " ", origin, " ", text))
			}
		}
		fans = append(fans, s)
		return nil
	})
	if err != nil {
		t.Fatalf("%v", err)
	}
	return fans
}

func sortExtras(lists ...[]stated) {
	for _, list := range lists {
		for _, s := range list {
			slices.SortFunc(s.Extra, func(a, b catalog.Extra) int { return strings.Compare(a.Header, b.Header) })
		}
	}
}

func exportOf(t fataler, dir, source string) (string, Exported) {
	t.Helper()
	c, err := store.Open(context.Background(), dir)
	if err != nil {
		t.Fatalf("%v", err)
	}
	defer c.Close()
	var out bytes.Buffer
	done, err := Export(context.Background(), c, source, &out)
	if err != nil {
		t.Fatalf("export: %v", err)
	}
	return out.String(), done
}

// importText imports a text as a source.
func importText(t fataler, dir, source, text string, when time.Time) Account {
	t.Helper()
	a, err := Run(context.Background(), Options{File: "-", Stdin: strings.NewReader(text), Source: source, Catalog: dir, Time: when})
	if err != nil {
		t.Fatalf("import of %s: %v\n%s", source, err, text)
	}
	return a
}

// sameAgain exports each source and imports it into a folder of its own: the fans
// are the same, and exporting them again gives the same bytes.
func sameAgain(t fataler, dir, fresh string, sources ...string) {
	t.Helper()
	for i, source := range append(sources, "") {
		text, done := exportOf(t, dir, source)
		other := filepath.Join(fresh, fmt.Sprint("other", i))
		a := importText(t, other, "again", text, time.Time{})
		if a.Rejected > 0 || a.Fans != done.Fans {
			t.Fatalf("export of %q: %d fans, read back %d, rejected %d: %+v\n%s", source, done.Fans, a.Fans, a.Rejected, a.Rejects, text)
		}
		want, got := statedOf(t, dir, source), statedOf(t, other, "again")
		if source == "" { // the orders of several files may contradict each other
			sortExtras(want, got)
		}
		if source != "" || done.Aside == 0 {
			if diff := cmp.Diff(want, got); diff != "" {
				t.Fatalf("export of %q reads back otherwise (-want +got):\n%s\n%s", source, diff, text)
			}
		}
		if again, _ := exportOf(t, other, "again"); again != text {
			t.Fatalf("the export of the export differs:\n%s", cmp.Diff(text, again))
		}
		for _, row := range records(t, text) {
			for _, cell := range row {
				if catalog.Guarded(cell) != cell && !strings.HasPrefix(cell, "'") {
					t.Fatalf("a spreadsheet would run the cell %q", cell)
				}
			}
		}
	}
}

func records(t fataler, text string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatalf("%v", err)
	}
	return rows
}

// A parts list drawn at random, as a table.
func drawList(t *rapid.T) [][]string {
	var header []string
	var fields []*catalog.Field
	for i := range catalog.Fields {
		d := &catalog.Fields[i]
		if d.ID == catalog.FieldPart || d.ID == catalog.FieldWidth || rapid.IntRange(0, 3).Draw(t, "column") > 0 {
			fields, header = append(fields, d), append(header, d.Name)
		}
	}
	others := rapid.SliceOfNDistinct(rapid.SampledFrom([]string{
		"Lagerort", "kind", "=SUM(A1)", "extra:x", "extra:Lagerort", "Gewicht [g]", "a,\"b\"", "column 3", "63 Hz", "125 Hz", "", "Ausführung  2", "Airflow [CFM]", "V", "noise (2)",
	}), 0, 6, rapid.ID).Draw(t, "others")
	header = append(header, others...)
	rows := [][]string{header}
	for range rapid.IntRange(1, 8).Draw(t, "rows") {
		var row []string
		for _, d := range fields {
			row = append(row, drawCell(t, d))
		}
		for range others {
			row = append(row, rapid.OneOf(rapid.Just(""), drawText(), rapid.StringMatching(`[0-9]{1,3}([.,][0-9])?`)).Draw(t, "other"))
		}
		rows = append(rows, row)
	}
	return rows
}

// drawText draws what is hard on a CSV and on whoever guesses its form.
func drawText() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.StringMatching(`[A-C]-?[0-9]{1,2}`),
		rapid.StringMatching(`'{0,2}[=+@-]?[A-Za-z0-9(,;"' .|]{1,10}`),
		rapid.StringMatching(`[äöü×\x{202e}\x{feff}a-z ]{1,6}`),
		rapid.SampledFrom([]string{"V", "mm", "yes", "Tacho", "12,5", "1;2;3", "part", "n/a", "-", "\"", "a\nb"}),
	)
}

func drawCell(t *rapid.T, d *catalog.Field) string {
	if d.ID == catalog.FieldTachPerRev && rapid.Bool().Draw(t, "worded") {
		return rapid.SampledFrom([]string{"yes", "no", "FG"}).Draw(t, "tach")
	}
	if d.ID != catalog.FieldPart && rapid.IntRange(0, 3).Draw(t, "empty") == 0 {
		return ""
	}
	switch d.Form {
	case catalog.Text:
		return drawText().Draw(t, d.Name)
	case catalog.Choice:
		return rapid.SampledFrom(d.Choices).Draw(t, d.Name)
	case catalog.Points:
		return rapid.SampledFrom([]string{"0:42.5;10:35;22:0", "2:30;11.25:3.1", "0:5;1:0"}).Draw(t, d.Name)
	case catalog.Bands:
		return rapid.SampledFrom([]string{"125:38;250:35;500:33;1000:30;2000:25;4000:20", "63:41.5;125:38;250:35;500:33;1000:30;2000:25;4000:20;8000:10"}).Draw(t, d.Name)
	case catalog.Count:
		return catalog.Number(float64(rapid.IntRange(int(d.Low), int(min(d.High, 100))).Draw(t, d.Name)))
	}
	return catalog.Number(rapid.Float64Range(d.Low, min(d.High, 1000*max(1, d.Low))).Draw(t, d.Name))
}

func textOf(t fataler, rows [][]string) string {
	t.Helper()
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	if err := w.WriteAll(rows); err != nil {
		t.Fatalf("%v", err)
	}
	return out.String()
}

// roundTrip imports lists as sources and looks that exports read back as they
// are. Lists of which no row is usable are none.
func roundTrip(t fataler, dir string, lists [][][]string) {
	t.Helper()
	var sources []string
	cat := filepath.Join(dir, "catalogue")
	for i, rows := range lists {
		source := fmt.Sprint("list ", i)
		o := Options{File: "-", Stdin: strings.NewReader(textOf(t, rows)), Source: source, Catalog: cat, Time: time.Unix(int64(1000*i), 0)}
		o.Format = tabular.Options{Delimiter: ',', Decimal: tabular.Point, HeaderLine: 1}
		if _, err := Run(context.Background(), o); err == nil {
			sources = append(sources, source)
		}
	}
	if len(sources) > 0 {
		sameAgain(t, cat, dir, sources...)
	}
}

func TestExportReadsBackTheSame(t *testing.T) {
	draw := rapid.SliceOfN(rapid.Custom(drawList), 1, 3)
	for seed := range 8 {
		roundTrip(t, t.TempDir(), draw.Example(seed))
	}
}

func FuzzExport(f *testing.F) {
	draw := rapid.SliceOfN(rapid.Custom(drawList), 1, 3)
	f.Fuzz(rapid.MakeFuzz(func(r *rapid.T) {
		dir, err := os.MkdirTemp("", "export-")
		if err != nil {
			r.Fatal(err)
		}
		defer os.RemoveAll(dir)
		roundTrip(r, dir, draw.Draw(r, "lists"))
	}))
}

// Into the catalogue it comes from an export brings nothing new.
func TestExportIsNothingNew(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	p.ok(nil)
	text, done := exportOf(t, p.cat, "liste.csv")
	if done.Fans != 2 || !cmp.Equal(done.Sources, []string{"liste.csv"}) {
		t.Errorf("Export = %+v", done)
	}
	p.wants(importText(t, p.cat, "liste.csv", text, time.Time{}), counts{Rows: 2, Repeated: 2, Fans: 2})
}

// Of a part in several sources the row that counts is exported.
func TestExportOfSeveralSources(t *testing.T) {
	dir := t.TempDir()
	cat := filepath.Join(dir, "catalogue")
	const header = "part,maker,width_mm,price,Lagerort\n"
	importText(t, cat, "b", header+"A1,N,60,2,x\nA2,N,60,2,y\n", time.Unix(2000, 0))
	importText(t, cat, "c", header+"a 1,n,60,3,z\nA3,N,60,3,\n", time.Unix(1000, 0))
	text, done := exportOf(t, cat, "")
	if want := (Exported{Sources: []string{"b", "c"}, Fans: 3, Aside: 1}); !cmp.Equal(done, want) {
		t.Errorf("Export = %+v, want %+v", done, want)
	}
	var parts []string
	for _, row := range records(t, text)[1:] {
		parts = append(parts, row[0]+" "+row[len(row)-1])
	}
	if want := []string{"A1 x", "A2 y", "A3 "}; !cmp.Equal(parts, want) {
		t.Errorf("it holds %q, want %q", parts, want)
	}
	sameAgain(t, cat, dir, "b", "c")
}

// A file with a byte order mark, as spreadsheets write it, is still an export.
func TestExportWithMark(t *testing.T) {
	p := newPlace(t, listHeader+goodRows)
	p.ok(nil)
	text, _ := exportOf(t, p.cat, "")
	a := importText(t, p.cat, "liste.csv", "\ufeff"+strings.ReplaceAll(text, "\n", "\r\n"), time.Time{})
	p.wants(a, counts{Rows: 2, Repeated: 2, Fans: 2})
}
