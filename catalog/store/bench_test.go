package store

import (
	"context"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"lowsone/catalog"
)

// benchRows is how many rows the benchmarks run over; LOWSONE_BENCH_ROWS gives
// another number.
func benchRows(b *testing.B) int {
	text := os.Getenv("LOWSONE_BENCH_ROWS")
	if text == "" {
		return 10_000
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		b.Fatal(err)
	}
	return n
}

func perRow(b *testing.B, rows int) {
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(rows), "ns/row")
}

// BenchmarkNewRow and BenchmarkEncode are the two halves of what a row costs
// before it is written.
func BenchmarkNewRow(b *testing.B) {
	fans := inventedFans(chunkRows)
	for b.Loop() {
		for _, f := range fans {
			if _, err := NewRow(f, 1); err != nil {
				b.Fatal(err)
			}
		}
	}
	perRow(b, len(fans))
}

func BenchmarkEncode(b *testing.B) {
	fans := inventedFans(chunkRows)
	e := newEncoder(currentSchema())
	b.ReportAllocs()
	for b.Loop() {
		e.encode(fans)
	}
	perRow(b, len(fans))
}

func BenchmarkBuild(b *testing.B) {
	fans := inventedFans(benchRows(b))
	dir := b.TempDir()
	for b.Loop() {
		fill(b, dir, "a.csv", fans...)
	}
	perRow(b, len(fans))
	c := open(b, dir)
	defer c.Close()
	for _, f := range c.manifest.Files {
		b.ReportMetric(float64(f.Size)/float64(len(fans)), filepath.Base(f.Name)+"-B/row")
	}
}

func benchCatalogue(b *testing.B) *Catalogue {
	dir := b.TempDir()
	fill(b, dir, "a.csv", inventedFans(benchRows(b))...)
	c := open(b, dir)
	b.Cleanup(func() { c.Close() })
	return c
}

func BenchmarkOpen(b *testing.B) {
	c := benchCatalogue(b)
	for b.Loop() {
		open(b, c.dir).Close()
	}
}

func BenchmarkColumns(b *testing.B) {
	c := benchCatalogue(b)
	for name, fields := range map[string][]catalog.FieldID{
		"all": nil,
		"rank": {catalog.FieldKind, catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth, catalog.FieldVoltage, catalog.FieldVoltageMin,
			catalog.FieldVoltageMax, catalog.FieldSupply, catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldCurve, catalog.FieldNoise},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := c.Columns(context.Background(), fields...); err != nil {
					b.Fatal(err)
				}
			}
			perRow(b, c.Rows())
		})
	}
}

func BenchmarkFan(b *testing.B) {
	c := benchCatalogue(b)
	row := 0
	for b.Loop() {
		if _, err := c.Fan(row); err != nil {
			b.Fatal(err)
		}
		row = (row + 1009) % c.Rows()
	}
}

func BenchmarkFind(b *testing.B) {
	c := benchCatalogue(b)
	f, err := c.Fan(c.Rows() / 2)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if rows, err := c.Find("", f.Part); err != nil || len(rows) != 1 {
			b.Fatal(rows, err)
		}
	}
}

func BenchmarkSearch(b *testing.B) {
	c := benchCatalogue(b)
	f, err := c.Fan(c.Rows() / 2)
	if err != nil {
		b.Fatal(err)
	}
	for name, text := range map[string]string{"part": f.Part, "prefix": f.Part[:4], "words": "nordwind 60mm 12v", "common": "tach", "error": "nordwnid"} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if hits, err := c.Search(context.Background(), text, 20); err != nil || len(hits) == 0 {
					b.Fatal(hits, err)
				}
			}
		})
	}
	b.Run("first", func(b *testing.B) { // with opening the word index
		for b.Loop() {
			c := open(b, c.dir)
			if _, err := c.Search(context.Background(), f.Part, 20); err != nil {
				b.Fatal(err)
			}
			c.Close()
		}
	})
}
