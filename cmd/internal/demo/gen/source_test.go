package gen

import (
	"strconv"
	"testing"

	"lowsone/testdata/sources"
)

// rows reads one file of testdata/sources as one map a row.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	return sources.Records[map[string]string](t, name)
}

// axialCurves are the axial curves of testdata/sources/air_fan_curves.csv at our knots.
func axialCurves(t *testing.T) map[string]shape {
	t.Helper()
	points := map[string][]Point{}
	for _, row := range rows(t, "air_fan_curves.csv") {
		if row["kind"] == "axial" {
			points[row["curve_id"]] = append(points[row["curve_id"]], Point{float(t, row["q_over_qmax"]), float(t, row["p_over_p0"])})
		}
	}
	if len(points) < 10 {
		t.Fatalf("%d axial curves in the source, want at least 10", len(points))
	}
	out := map[string]shape{}
	for id, curve := range points {
		var s shape
		for k := range s {
			s[k] = interpolate(curve, float64(k)/(knots-1))
		}
		out[id] = s
	}
	return out
}

func float(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// interpolate is p(q) on straight lines between points.
func interpolate(points []Point, q float64) float64 {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if q <= b.FlowM3h && b.FlowM3h > a.FlowM3h {
			return a.PressurePa + (b.PressurePa-a.PressurePa)*(q-a.FlowM3h)/(b.FlowM3h-a.FlowM3h)
		}
	}
	return points[len(points)-1].PressurePa
}
