package tabular

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// cellsOfXML reads the cells of one row of a workbook written by hand.
func cellsOfXML(t *testing.T, cells string) []string {
	t.Helper()
	p := handmade(`<row><c t="inlineStr"><is><t>header</t></is></c></row><row>` + cells + `</row>`)
	p["xl/styles.xml"] = `<styleSheet><numFmts><numFmt numFmtId="164" formatCode="00000"/><numFmt numFmtId="165" formatCode="[h]:mm"/></numFmts>` +
		`<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="1"/><xf numFmtId="164"/><xf numFmtId="165"/></cellXfs></styleSheet>`
	rows := rowsOf(t, opened(t, p.zipped(t), Options{HeaderLine: 1}))
	if len(rows) != 1 {
		t.Fatalf("rows = %q, want one", cellsOf(rows))
	}
	return rows[0].Fields
}

// TestSheetCell: values as they stand, whatever the sheet shows.
func TestSheetCell(t *testing.T) {
	tests := []struct{ name, xml, want string }{
		{"number", `<c><v>28.5</v></c>`, "28.5"},
		{"shown as 29", `<c s="2"><v>28.5</v></c>`, "28.5"},
		{"named a number", `<c t="n"><v> -3 </v></c>`, "-3"},
		{"left by reckoning in twos", `<c><v>28.399999999999999</v></c>`, "28.4"},
		{"sum of tenths", `<c><v>0.30000000000000004</v></c>`, "0.3"},
		{"with exponent", `<c><v>1.5E-2</v></c>`, "0.015"},
		{"whole, with exponent", `<c><v>8.71869612E+12</v></c>`, "8718696120000"},
		{"code of 18 digits", `<c><v>123456789012345678</v></c>`, "123456789012345678"},
		{"very large", `<c><v>1e300</v></c>`, "1e+300"},
		{"very small", `<c><v>-2.5e-12</v></c>`, "-2.5e-12"},
		{"beyond all numbers", `<c><v>1e999</v></c>`, "1e999"},
		{"no number", `<c><v>INF</v></c>`, "INF"},
		{"hexadecimal", `<c><v>0x1p4</v></c>`, "0x1p4"},
		{"zeros in front", `<c s="3"><v>42</v></c>`, "00042"},
		{"more digits than zeros", `<c s="3"><v>1234567</v></c>`, "1234567"},
		{"no whole number in a code", `<c s="3"><v>4.25</v></c>`, "4.25"},
		{"date", `<c s="1"><v>45363</v></c>`, "2024-03-12"},
		{"date and time", `<c s="1"><v>45363.75</v></c>`, "2024-03-12 18:00:00"},
		{"before all dates", `<c s="1"><v>-1</v></c>`, "-1"},
		{"hours gone by", `<c s="4"><v>2.5</v></c>`, "60:00:00"},
		{"date in ISO form", `<c t="d"><v>2024-03-12T00:00:00Z</v></c>`, "2024-03-12"},
		{"date and time in ISO form", `<c t="d"><v>2024-03-12T18:00:00.5Z</v></c>`, "2024-03-12 18:00:00.5"},
		{"unknown style", `<c s="99"><v>45363</v></c>`, "45363"},
		{"style that is none", `<c s="x"><v>45363</v></c>`, "45363"},
		{"true", `<c t="b"><v>1</v></c>`, "true"},
		{"false", `<c t="b"><v>0</v></c>`, "false"},
		{"error", `<c t="e"><v>#N/A</v></c>`, "#N/A"},
		{"shared text", `<c t="s"><v>1</v></c>`, "b"},
		{"shared text in runs, with a hint how to say it", `<c t="s"><v>2</v></c>`, "c"},
		{"text of its own", `<c t="inlineStr"><is><t xml:space="preserve"> 12,5 </t></is></c>`, " 12,5 "},
		{"text in runs", `<c t="inlineStr"><is><r><t>12</t></r><r><t> V</t></r></is></c>`, "12 V"},
		{"formula with a text", `<c t="str"><f>A1&amp;"x"</f><v>KX&lt;1&gt;</v></c>`, "KX<1>"},
		{"formula with a number", `<c><f>1+1</f><v>3</v></c>`, "3"},
		{"text that looks like a formula", `<c t="inlineStr"><is><t>=1+1</t></is></c>`, "=1+1"},
		{"escaped characters", `<c t="inlineStr"><is><t>a_x000D_b_x005F_x0041_c_xZZZZ__x12</t></is></c>`, "a\rb_x0041_c_xZZZZ__x12"},
		{"half a pair", `<c t="inlineStr"><is><t>a_xD800_b&#xD800;</t></is></c>`, "a\ufffdb\ufffd"},
		{"comments and markup between", `<!-- x --><c t="inlineStr"><is><t>a<!-- b --><![CDATA[<c>]]></t></is></c>`, "a<c>"},
		{"with prefix", `<x:c t="s"><x:v>0</x:v></x:c>`, "a"},
		{"nothing", `<c t="s"/><c r="B2" t="s"><v>1</v></c>`, "|b"},
		{"gaps", `<c r="C2"><v>1</v></c><c><v>2</v></c>`, "||1|2"},
		{"from right to left", `<c r="C2"><v>3</v></c><c r="A2"><v>1</v></c>`, "1||3"},
		{"of a kind not known", `<c t="z"><v>z</v></c>`, "z"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := strings.Join(cellsOfXML(t, tt.xml), "|"); got != tt.want {
				t.Errorf("cell %s reads %q, want %q", tt.xml, got, tt.want)
			}
		})
	}
}

// TestMarksOfASheet: one sheet with cells that are numbers and cells of text that
// hold numbers with a comma. Read with the mark of its column, each is what the
// person sees.
func TestMarksOfASheet(t *testing.T) {
	rows := [][]any{
		{"part", "numbers", "text", "both", "doubtful", "code"},
		{"A", 28.5, "12,5 V", 1.234, "1,500", 17},
		{"B", 1.234, "24,0 V", "5,5", 1.25, "x1,5"},
		{"C", 30, "12 V", 6, "2,500", 8},
	}
	want := [][]float64{{28.5, 12.5, 1.234, 1.5}, {1.234, 24, 5.5, 1.25}, {30, 12, 6, 2.5}}
	for _, force := range []Mark{0, Comma} {
		t.Run("forced: "+force.String(), func(t *testing.T) {
			f := opened(t, plainBook(t, rows...), Options{Decimal: force})
			// The votes have no say about columns with numbers: their cells are written already.
			_, columns := f.Decide(func(int) bool { return false })
			got := ""
			for _, d := range columns[1:5] {
				got += " " + d.Mark.String()
			}
			if want := " point comma comma comma"; got != want {
				t.Errorf("marks =%s, want%s", got, want)
			}
			if columns[1].Why != WhyTyped {
				t.Errorf("numbers: %v, want %v", columns[1].Why, WhyTyped)
			}
			_, columns = f.Decide(nil)
			for i, row := range rowsOf(t, f) {
				for j, want := range want[i] {
					number, _, _ := strings.Cut(row.Fields[j+1], " ")
					if v, err := ParseNumber(number, columns[j+1].Mark); err != nil || v != want {
						t.Errorf("%s%d: %q with a decimal %v is %v, %v, want %v", columnName(j+2), i+2, row.Fields[j+1], columns[j+1].Mark, v, err, want)
					}
				}
			}
		})
	}
}

// TestPointsInASheet: the same where the texts have points.
func TestPointsInASheet(t *testing.T) {
	f := opened(t, plainBook(t, []any{"a", "b"}, []any{1.234, "12.5 V"}, []any{"1.5 V", "1,500"}), Options{})
	file, columns := f.Decide(nil)
	if file.Value != Point || columns[0].Mark != Point || columns[1].Mark != Point {
		t.Errorf("marks = %v, %v, %v, want points", file.Value, columns[0].Mark, columns[1].Mark)
	}
	if got, want := cellsOf(rowsOf(t, f)), []string{"1.234|12.5 V", "1.5 V|1,500"}; !slices.Equal(got, want) {
		t.Errorf("rows = %q, want %q", got, want)
	}
}

// TestAnyNumber: however the workbook writes a number, it is read to the 15 digits
// that spreadsheets keep, with a point; short ones exactly.
func TestAnyNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64().Draw(t, "number")
		if rapid.Bool().Draw(t, "short") {
			v = float64(rapid.IntRange(-1e9, 1e9).Draw(t, "hundredths")) / 100
		}
		text := rapid.SampledFrom([]string{
			strconv.FormatFloat(v, 'g', 17, 64), strconv.FormatFloat(v, 'e', -1, 64), strconv.FormatFloat(v, 'f', -1, 64),
		}).Draw(t, "text")
		got, typed := (&sheet{}).number(text, 0)
		back, err := ParseNumber(got, Point)
		if err != nil || !typed || math.Abs(back-v) > 1e-14*math.Abs(v) || math.Abs(v) < 1e12 && math.Trunc(v*100)/100 == v && back != v {
			t.Fatalf("number(%q) = %q, read as %v, %v, want %v", text, got, back, err, v)
		}
	})
}

func TestFormOf(t *testing.T) {
	tests := []struct {
		code string
		want numberForm
	}{
		{"General", numberForm{}}, {"0.00", numberForm{}}, {"#,##0.00 \"dB\"", numberForm{unit: "dB"}}, {"0.0\" mm\"", numberForm{unit: "mm"}}, {"@", numberForm{}}, {"", numberForm{}},
		{"0%", numberForm{}}, {"0.00E+00", numberForm{}}, {"[Red]0;[Blue]-0", numberForm{}}, {"[$-407]#,##0.00 [$€-407]", numberForm{unit: "€"}}, {"# ?/?", numberForm{}},
		{`0\d`, numberForm{unit: "d"}}, {"0_d*d", numberForm{}}, {"\"unclosed d", numberForm{}}, {"[unclosed d", numberForm{}}, {`0\`, numberForm{}},
		{"yyyy-mm-dd", numberForm{kind: dateForm}}, {"dd.mm.yy", numberForm{kind: dateForm}}, {"[$-407]d. mmmm yyyy;@", numberForm{kind: dateForm}},
		{"h:mm AM/PM", numberForm{kind: dateForm}}, {"mm:ss.000", numberForm{kind: dateForm}}, {`yyyy\-mm\-dd hh:mm`, numberForm{kind: dateForm}}, {"m/d/yy h:mm", numberForm{kind: dateForm}},
		{"[h]:mm:ss", numberForm{kind: elapsedForm}}, {"[mm]:ss.0", numberForm{kind: elapsedForm}}, {"[SS]", numberForm{kind: elapsedForm}},
		{"000", numberForm{kind: codeForm, digits: 3}}, {"0", numberForm{}}, {"00-00", numberForm{}}, {"0000;;", numberForm{}},
	}
	for _, tt := range tests {
		if got := formOf(tt.code); got != tt.want {
			t.Errorf("formOf(%q) = %v, want %v", tt.code, got, tt.want)
		}
	}
}

// TestDayText holds days against those of a library that is not ours, and of the
// standard's own table (ECMA-376 part 1, 18.17.4.1).
func TestDayText(t *testing.T) {
	tests := []struct {
		days     float64
		from1904 bool
		want     string // empty: none
	}{
		{0, false, "00:00:00"}, {0.5, false, "12:00:00"}, {0.999999999, false, "23:59:59.999"},
		{1, false, "1900-01-01"}, {59, false, "1900-02-28"}, {60, false, ""}, {61, false, "1900-03-01"},
		{45363, false, "2024-03-12"}, {43901, true, "2024-03-12"}, {45363.5, false, "2024-03-12 12:00:00"},
		{45363.999999999, false, "2024-03-13"}, {45363.00001157407, false, "2024-03-12 00:00:01"}, {45363.000005787, false, "2024-03-12 00:00:00.500"},
		{2958465, false, "9999-12-31"}, {2958465.9999999999, false, ""}, {2958466, false, ""}, {2957004, true, ""}, {-0.5, false, ""},
		{math.NaN(), false, ""}, {math.Inf(1), false, ""},
	}
	for _, tt := range tests {
		got, ok := dayText(tt.days, tt.from1904)
		if got != tt.want || ok != (tt.want != "") {
			t.Errorf("dayText(%v, %v) = %q, %v, want %q", tt.days, tt.from1904, got, ok, tt.want)
		}
	}
	for day := 61.0; day < 60_000; day++ {
		want, err := excelize.ExcelDateToTime(day, false)
		if got, _ := dayText(day, false); err != nil || got != want.Format(time.DateOnly) {
			t.Fatalf("dayText(%v) = %s, want %v", day, got, want)
		}
	}
}

// TestDatesAsWritten: dates and times that a library writes come back.
func TestDatesAsWritten(t *testing.T) {
	noon := time.Date(2030, 4, 5, 12, 30, 15, 0, time.UTC)
	for _, from1904 := range []bool{false, true} {
		text := book(t, func(f *excelize.File) {
			must(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &from1904}))
			rowsInto(t, f, "Fans", []any{"when", "day", "gone by"}, []any{noon, noon.Truncate(24 * time.Hour), 36 * time.Hour})
			style, err := f.NewStyle(&excelize.Style{NumFmt: 46}) // [h]:mm:ss
			must(t, err)
			must(t, f.SetCellStyle("Fans", "C2", "C2", style))
		})
		want := []string{"2030-04-05 12:30:15|2030-04-05|36:00:00"}
		if got := cellsOf(rowsOf(t, opened(t, text, Options{}))); !slices.Equal(got, want) {
			t.Errorf("rows = %q, want %q (from 1904: %v)", got, want, from1904)
		}
	}
}
