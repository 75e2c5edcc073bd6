package acoustics

import (
	"testing"
)

// Everything here runs for each of many fans, so nothing may allocate.
func TestNoAllocation(t *testing.T) {
	var sink float64
	allocs := testing.AllocsPerRun(100, func() {
		l, _ := AtSpeed(level(40), 0.4)
		l, _, _ = Subtract(Sum(l, level(30)), level(10))
		m, low, high := OffBest(Axial, 0.4)
		a, b := RoomBand(l.Plus(m+low+high), 1, 2, SmallRoom)
		sink += a.DB() + b.DB() + AtDensity(a, 1.1).DB()
	})
	if allocs != 0 {
		t.Errorf("%v allocations a run, want none (result %v)", allocs, sink)
	}
}

// So does everything about one spectrum.
func TestNoAllocationOnSpectra(t *testing.T) {
	pink := Thirds{}
	var sink float64
	allocs := testing.AllocsPerRun(100, func() {
		s := pink.ScaledTo(level(40))
		s = s.Plus(3)
		s = SumThirds(&s, &pink)
		s, _ = s.AtSpeed(0.7)
		sink += s.A().DB() + float64(s.C()+s.Overall())
	})
	if allocs != 0 {
		t.Errorf("%v allocations a run, want none (result %v)", allocs, sink)
	}
}

func BenchmarkLevelOfOneFan(b *testing.B) {
	var sink float64
	for b.Loop() {
		l, _ := AtSpeed(level(40), 0.7)
		m, _, _ := OffBest(Axial, 0.4)
		sink += l.Plus(m).DB()
	}
	_ = sink
}

func BenchmarkSpectrumAtSpeed(b *testing.B) {
	pink := Thirds{}
	var sink float64
	for b.Loop() {
		s, _ := pink.AtSpeed(0.7)
		sink += s[0]
	}
	_ = sink
}

func BenchmarkTones(b *testing.B) {
	n := narrowBand(signal(1, 0.05, 1, sine{245, 0.01}, sine{490, 0.005}), 1)
	for b.Loop() {
		if _, err := n.Tones(); err != nil {
			b.Fatal(err)
		}
	}
}
