package intake

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// benchList writes a list of n fans in the style of a dealer's export.
func benchList(b *testing.B, n int) string {
	var text strings.Builder
	text.WriteString("Artikel-Nr.;Typ;Hersteller;Bauart;Abmessungen (mm);Nennspannung;Spannungsbereich [V];Luftstrom m³/h;Druck [Pa];Geräusch dB(A);Drehzahl 1/min;Leistung [W];Lager;Anschluss;Preis €;Bestand\n")
	for i := range n {
		size := []int{40, 60, 80, 92, 120}[i%5]
		fmt.Fprintf(&text, "10%06d;AX%d-%d;Nordwehe;Axiallüfter;%dx%dx25;%d VDC;7–13,8;%d,5;%d;%d dB(A);%d.%03d;1,%d;Kugel;Litzen 3;%d,%02d;%d\n",
			i, size, i, size, size, []int{12, 24}[i%2], 20+i%90, 30+i%70, 20+i%25, 2+i%4, i%1000, i%10, 3+i%20, i%100, i%500)
	}
	file := filepath.Join(b.TempDir(), "list.csv")
	if err := os.WriteFile(file, []byte(text.String()), 0o600); err != nil {
		b.Fatal(err)
	}
	return file
}

func BenchmarkImport(b *testing.B) {
	const rows = 10000
	for _, dry := range []bool{true, false} {
		b.Run(map[bool]string{true: "dry", false: "whole"}[dry], func(b *testing.B) {
			file := benchList(b, rows)
			b.ReportAllocs()
			for b.Loop() {
				a, err := Run(context.Background(), Options{File: file, Catalog: filepath.Join(b.TempDir(), "c"), DryRun: dry})
				if err != nil || a.Imported != rows {
					b.Fatalf("%d imported of %d, %v", a.Imported, rows, err)
				}
			}
			b.ReportMetric(float64(rows)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
		})
	}
}
