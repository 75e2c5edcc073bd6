package loudness

import "testing"

func TestNoAllocation(t *testing.T) {
	l := levelsOf(t, "signal1")
	if n := testing.AllocsPerRun(100, func() { Sone(&l, Free) }); n != 0 {
		t.Errorf("Sone allocates %v times", n)
	}
}

// The tally of spectra a second stands beside the time for one.
func BenchmarkSone(b *testing.B) {
	l := levelsOf(b, "signal1")
	for b.Loop() {
		Sone(&l, Free)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "spectra/s")
}

func BenchmarkAnalyse(b *testing.B) {
	l := levelsOf(b, "signal1")
	for b.Loop() {
		Analyse(&l, Free)
	}
}
