package tabular

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"testing"
)

// benchRows is enough for a steady figure and still quick.
const benchRows = 20000

// benchTable is a semicolon table of 12 columns as a distributor exports it.
func benchTable() string {
	var b strings.Builder
	b.WriteString("part;maker;frame;depth;voltage;current;airflow;pressure;speed;noise;price;description\r\n")
	for i := range benchRows {
		fmt.Fprintf(&b, "KX-%d;Lumora;60;25;12 V;0,%02d;%d,%d;%d,%d;%d;%d,%d;%d,90;\"axial fan, 3 leads, 300 mm\"\r\n",
			10000+i, i%100, 20+i%60, i%10, 20+i%70, i%10, 1500+i%4000, 18+i%25, i%10, 4+i%30)
	}
	return b.String()
}

func BenchmarkRows(b *testing.B) {
	text := benchTable()
	ctx := context.Background()
	f, err := Open(ctx, "bench.csv", strings.NewReader(text), int64(len(text)), Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		n := 0
		for _, err := range f.Rows(ctx) {
			if err != nil {
				b.Fatal(err)
			}
			n++
		}
		if n != benchRows {
			b.Fatalf("%d rows, want %d", n, benchRows)
		}
	}
	perSecond(b)
}

func BenchmarkOpen(b *testing.B) {
	text := benchTable()
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		_, err := Open(context.Background(), "bench.csv", strings.NewReader(text), int64(len(text)), Options{})
		if err != nil {
			b.Fatal(err)
		}
	}
	perSecond(b)
}

// BenchmarkBareCSV is the loop that the other two are held against.
func BenchmarkBareCSV(b *testing.B) {
	text := benchTable()
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		r := csv.NewReader(strings.NewReader(text))
		r.Comma = ';'
		r.ReuseRecord = true
		for {
			_, err := r.Read()
			if err == io.EOF {
				break
			}
			if err != nil {
				b.Fatal(err)
			}
		}
	}
	perSecond(b)
}

func perSecond(b *testing.B) {
	b.ReportMetric(float64(benchRows)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}

func BenchmarkParseNumber(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ParseNumber("1.234,5", Comma); err != nil {
			b.Fatal(err)
		}
	}
}
