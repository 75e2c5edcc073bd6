package view

import (
	"bytes"
	"strings"
	"testing"

	"lowsone/catalog"
	"lowsone/catalog/intake"
	"lowsone/catalog/partscsv"
)

// Repeated rows say why they brought nothing.
func TestRepeatedSaysWhy(t *testing.T) {
	tests := []struct {
		unchanged, overtaken int
		want                 string
	}{
		{433, 11, "444 repeated (433 unchanged, 11 twice in the list)"},
		{0, 2, "2 repeated (2 twice in the list)"},
		{3, 0, "3 repeated (3 unchanged)"},
		{0, 0, "0 repeated"},
	}
	for _, test := range tests {
		m := Import{Account: intake.Account{Unchanged: test.unchanged, Overtaken: test.overtaken, Repeated: test.unchanged + test.overtaken}}
		if got := m.repeated(); got != test.want {
			t.Errorf("repeated() = %q, want %q", got, test.want)
		}
	}
}

// A fault that several samples share is shown once; equal values are not left
// out.
func TestSamplesTellAFaultOnce(t *testing.T) {
	c := &partscsv.Column{Fields: []catalog.FieldID{catalog.FieldNoiseBands}, Samples: []partscsv.Sample{
		{Cell: "a", Value: "no pairs", Fault: true}, {Cell: "b", Value: "no pairs", Fault: true}, {Cell: "c", Value: "an odd one", Fault: true},
	}}
	got := sampleTexts(c)
	if strings.Count(got, "no pairs") != 1 || !strings.Contains(got, "an odd one") || strings.Contains(got, "b →") {
		t.Errorf("sampleTexts = %q", got)
	}
}

// A warning shows the numbers of its first row.
func TestWarningShowsItsExample(t *testing.T) {
	m := Import{Account: intake.Account{Warnings: []partscsv.Warning{{Header: "Consumo", Reason: "too little", Count: 2, Line: 4, Example: "1.2 W on 0.16 W"}}}}
	var out bytes.Buffer
	p := &printer{w: &out, style: Style{}}
	m.warnings(p)
	if want := `"Consumo": too little (2 rows, first on line 4: 1.2 W on 0.16 W)`; p.err != nil || !strings.Contains(out.String(), want) {
		t.Errorf("warnings = %q, %v, want %q", out.String(), p.err, want)
	}
}

// A word among numbers does not push their points aside.
func TestWordsAmongNumbers(t *testing.T) {
	table := Table{Columns: []Column{{Title: "part"}, {Title: "stock", Number: true}}}
	table.Add("A", "yes")
	table.Add("B", "12")
	table.Add("C", "4.5")
	var out bytes.Buffer
	if err := table.Write(&out, Style{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"A     yes", "B      12", "C       4.5"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in\n%s", want, out.String())
		}
	}
}

func TestStockCell(t *testing.T) {
	for _, test := range []struct {
		values []string
		want   string
	}{
		{[]string{"part=A", "stock=12"}, "12"}, {[]string{"part=A", "stock=0"}, "0"}, {[]string{"part=A", "in_stock=yes"}, "yes"},
		{[]string{"part=A", "in_stock=no"}, "no"}, {[]string{"part=A"}, Unknown},
	} {
		if got := stockCell(fanOf(t, test.values...)); got != test.want {
			t.Errorf("stockCell(%v) = %q, want %q", test.values, got, test.want)
		}
	}
}
