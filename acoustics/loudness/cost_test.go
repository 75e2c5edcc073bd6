package loudness

import "testing"

func TestNoAllocation(t *testing.T) {
	l, room := levelsOf(t, "signal1"), fans(t)["pink_noise"]
	table, err := NewTable(&room, Free)
	if err != nil {
		t.Fatal(err)
	}
	for name, f := range map[string]func(){
		"Sone":          func() { Sone(&l, Free) },
		"Analyse":       func() { Analyse(&l, Diffuse) },
		"Check":         func() { Check(&l) },
		"Added":         func() { Added(&l, &room, Free) },
		"Table.Sone":    func() { table.Sone(33.3) },
		"Table.Level":   func() { table.Level(1.1) },
		"Table.Halving": func() { table.Halving(40) },
		"past its end":  func() { table.Level(table.Sone(120)) },
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
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

func BenchmarkTable(b *testing.B) {
	shape := fans(b)["axial_octave_shape_a"]
	t, err := NewTable(&shape, Free)
	if err != nil {
		b.Fatal(err)
	}
	db := 20.0
	for b.Loop() {
		t.Sone(db)
		if db += 0.37; db > 60 {
			db = 20
		}
	}
}

func BenchmarkTableLevel(b *testing.B) {
	shape := fans(b)["axial_octave_shape_a"]
	t, err := NewTable(&shape, Free)
	if err != nil {
		b.Fatal(err)
	}
	sone := 0.1
	for b.Loop() {
		t.Level(sone)
		if sone += 0.037; sone > 15 {
			sone = 0.1
		}
	}
}

func BenchmarkNewTable(b *testing.B) {
	shape := fans(b)["axial_octave_shape_a"]
	for b.Loop() {
		if _, err := NewTable(&shape, Free); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAdded(b *testing.B) {
	source, room := fans(b)["axial_octave_shape_a"], fans(b)["pink_noise"]
	for b.Loop() {
		Added(&source, &room, Free)
	}
}
