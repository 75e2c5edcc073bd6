package index

import (
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"
)

// benchRows are n rows of invented parts, the same at every run.
func benchRows(n int) []row {
	r := rand.New(rand.NewPCG(1, 2))
	makers := []string{"Nordwind", "Halvorsen", "Brümmer", "Cécile", "Tarsus", "Odalys"}
	bearings := []string{"ball bearing", "sleeve bearing", "fluid bearing, long life"}
	rows := make([]row, n)
	for i := range rows {
		size, depth, volts := 40+10*r.IntN(9), 10+5*r.IntN(5), 12*(1+r.IntN(4))
		rows[i] = row{
			Part:  fmt.Sprintf("%c%c-%04d/%02d", 'A'+r.IntN(26), 'A'+r.IntN(26), r.IntN(10000), r.IntN(100)),
			Codes: []string{fmt.Sprintf("%03d-%05d", r.IntN(1000), r.IntN(100000))},
			Texts: []string{
				makers[r.IntN(len(makers))], fmt.Sprintf("axial %dx%dx%d %dmm %dV DC", size, size, depth, size, volts),
				bearings[r.IntN(len(bearings))], "fan with tach output, plastic housing, lead wires 300 mm",
			},
		}
	}
	return rows
}

func BenchmarkBuild10k(b *testing.B) {
	rows := benchRows(10_000)
	for b.Loop() {
		w, err := NewBuilder(filepath.Join(b.TempDir(), "words"))
		if err != nil {
			b.Fatal(err)
		}
		shelve(w, rows, 2048)
		if err := w.Close(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(rows)), "ns/row")
}

func BenchmarkSearch10k(b *testing.B) {
	rows := benchRows(10_000)
	x := build(b, rows, 2048)
	for _, text := range []string{rows[77].Part, rows[77].Part[:5], "nordwind 60mm 12v", "bearing", "bearnig"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				if _, err := x.Search(context.Background(), text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
