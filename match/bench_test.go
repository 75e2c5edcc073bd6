package match

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"lowsone/catalog"
)

// benchColumns draws n fans of four frames; about a quarter fit the seat.
func benchColumns(b *testing.B, n int) *catalog.Columns {
	rnd := rand.New(rand.NewPCG(1, 2))
	frames := []string{"width_mm=60 height_mm=60 depth_mm=25", "width_mm=40 height_mm=40 depth_mm=20", "width_mm=80 height_mm=80 depth_mm=25", "width_mm=120 height_mm=120 depth_mm=38"}
	var builder catalog.ColumnsBuilder
	for i := range n {
		builder.Append(fanOf(b, fmt.Sprintf("part=B%d maker=Bench kind=axial voltage_v=12 supply=dc leads=3 tach_per_rev=2 %s airflow_m3h=%.1f static_pressure_pa=%.1f noise_dba=%.1f speed_rpm=%d",
			i, frames[rnd.IntN(4)], 20+60*rnd.Float64(), 20+180*rnd.Float64(), 20+30*rnd.Float64(), 2000+rnd.IntN(5000))))
	}
	return builder.Columns()
}

// BenchmarkRank ranks a whole catalogue: checks, crossing, matched speed,
// level and order for every row.
func BenchmarkRank(b *testing.B) {
	for _, n := range []int{10_000, 100_000} {
		b.Run(fmt.Sprintf("rows=%d", n), func(b *testing.B) {
			cols := benchColumns(b, n)
			req := requestFor(fanOf(b, loud), NotInCatalogue, byFlow(25))
			req.Top = 10
			b.ReportAllocs()
			b.ResetTimer()
			for range b.N {
				if _, err := Rank(context.Background(), cols, req); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
		})
	}
}
