package bench

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// python gives a Python that finds numpy; PYTHON names another than python3.
func python(b *testing.B) (path string, ok bool) {
	b.Helper()
	path = os.Getenv("PYTHON")
	if path == "" {
		path = "python3"
	}
	if err := exec.Command(path, "-c", "import numpy").Run(); err != nil {
		b.Log("SKIPPED the comparison with numpy: python3 does not find it; PYTHON names another Python")
		return "", false
	}
	return path, true
}

// BenchmarkRank ranks for a loud 60 mm fan that moves 20 m³/h now.
func BenchmarkRank(b *testing.B) {
	fitted := []string{
		"width_mm=60", "height_mm=60", "depth_mm=25", "kind=axial", "supply=dc", "voltage_v=12", "leads=3",
		"airflow_m3h=40", "static_pressure_pa=60", "speed_rpm=4500", "noise_dba=38",
	}
	args := []string{"rank", "--format", "csv", "--top", "10", "--flow", "20m3/h"}
	for _, f := range fitted {
		args = append(args, "--fitted", f)
	}
	each(b, func(b *testing.B, s *bed) {
		s.importAll(b, "catalogue")
		for b.Loop() {
			if out := s.lowsone(b, "catalogue", args...); strings.Count(out, "\n") < 11 {
				b.Fatalf("lowsone ranked fewer than ten: %q", out)
			}
		}
		rival := 0.0
		if py, ok := python(b); ok {
			columns := filepath.Join(s.dir, "fans.npz")
			s.run(b, nil, py, "testdata/rank.py", "prepare", s.csv, columns)
			rival = time3(func() {
				if out := s.run(b, nil, py, "testdata/rank.py", "rank", columns); strings.Count(out, "\n") != 10 {
					b.Fatalf("numpy did not rank ten: %q", out)
				}
			})
		}
		s.report(b, rival)
	})
}
