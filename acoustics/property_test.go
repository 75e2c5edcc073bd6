package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

func levels(t *rapid.T) []quantity.SoundPressureLevel {
	var list []quantity.SoundPressureLevel
	for _, v := range rapid.SliceOfN(rapid.Float64Range(-200, 400), 1, 12).Draw(t, "levels") {
		list = append(list, level(v))
	}
	return list
}

// A sum is at least its largest term, at most that of so many equal ones, and
// does not depend on the order.
func TestSumBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ls := levels(t)
		largest := math.Inf(-1)
		for _, l := range ls {
			largest = math.Max(largest, l.DB())
		}
		got := Sum(ls...).DB()
		if most := largest + float64(Identical(len(ls))); got < largest || got > most+1e-9 {
			t.Fatalf("Sum(%v) = %v, want %v to %v", ls, got, largest, most)
		}
		back := make([]quantity.SoundPressureLevel, len(ls))
		for i, l := range ls {
			back[len(ls)-1-i] = l
		}
		if reversed := Sum(back...).DB(); math.Abs(reversed-got) > 1e-9 {
			t.Fatalf("Sum backwards = %v, forwards %v", reversed, got)
		}
	})
}

func TestSumOfSilence(t *testing.T) {
	silence := level(math.Inf(-1))
	if got := Sum().DB(); !math.IsInf(got, -1) {
		t.Errorf("Sum() = %v, want -Inf", got)
	}
	if got := Sum(silence, silence).DB(); !math.IsInf(got, -1) {
		t.Errorf("Sum(-Inf, -Inf) = %v, want -Inf", got)
	}
	if got := Sum(silence, level(30)).DB(); got != 30 {
		t.Errorf("Sum(-Inf, 30) = %v, want 30", got)
	}
	if got := Sum(level(math.NaN()), level(30)).DB(); !math.IsNaN(got) {
		t.Errorf("Sum(NaN, 30) = %v, want NaN", got)
	}
}

// What was added is taken away again, within the limits of a correction; under
// them the result still bounds the source from above.
func TestSubtractUndoesSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		source := rapid.Float64Range(10, 60).Draw(t, "source")
		background := rapid.Float64Range(0, 60).Draw(t, "background")
		total := Sum(level(source), level(background))
		got, how, err := Subtract(total, level(background))
		if err != nil {
			if source > background-100 {
				t.Fatalf("Subtract(%v, %v): %v", total, background, err)
			}
			return
		}
		off := got.DB() - source
		switch {
		case how == Corrected && math.Abs(off) > 1e-6,
			how == None && (off < 0 || off > 0.46), // 10·lg(1 + 0.1/0.9) dB at the limit
			how == UpperBound && off < -1e-9:
			t.Fatalf("Subtract(%v, %v) = %v (%v), want %v", total, background, got, how, source)
		}
	})
}

func TestSubtractLimits(t *testing.T) {
	rows := []struct {
		name              string
		total, background float64
		how               Background
		want, tol         float64
	}{
		{"far", 40, 29.9, None, 40, 0},
		{"at 10 dB", 40, 30, Corrected, 39.542, 0.001},
		{"at 3 dB", 40, 37, Corrected, 36.979, 0.001},
		{"under 3 dB", 40, 37.1, UpperBound, 36.979, 0.001},
		{"hardly above", 40, 39.999, UpperBound, 36.979, 0.001},
		{"no background", 40, math.Inf(-1), None, 40, 0},
	}
	for _, r := range rows {
		got, how, err := Subtract(level(r.total), level(r.background))
		if err != nil || how != r.how || !(math.Abs(got.DB()-r.want) <= r.tol) {
			t.Errorf("%s: Subtract(%v, %v) = %v, %v, %v, want %v ± %v, %v (limits of ISO 3746)",
				r.name, r.total, r.background, got.DB(), how, err, r.want, r.tol, r.how)
		}
	}
	const want = `subtract background: the background of "35" dB(A) is not below the "34.5" dB(A) measured with the source on`
	if _, _, err := Subtract(level(34.5), level(35)); err == nil || err.Error() != want {
		t.Errorf("Subtract(34.5, 35) error = %v, want %s", err, want)
	}
	for _, background := range []float64{40, 41, math.NaN()} {
		if _, _, err := Subtract(level(40), level(background)); err == nil {
			t.Errorf("Subtract(40, %v): no error", background)
		}
	}
}

// The law composes at and above half speed, falls with falling speed, and joins
// there; it is marked from there on down.
func TestSpeedLawShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0.05, 1.5).Draw(t, "a"), rapid.Float64Range(0.05, 1.5).Draw(t, "b")
		la, extrapolated := AtSpeed(level(40), a)
		lb, _ := AtSpeed(level(40), b)
		if extrapolated != (a < 0.5) {
			t.Fatalf("AtSpeed(40, %v) extrapolated = %v", a, extrapolated)
		}
		if (a < b) != (la.DB() < lb.DB()) && a != b {
			t.Fatalf("AtSpeed(40, %v) = %v, AtSpeed(40, %v) = %v: not rising", a, la, b, lb)
		}
		k := float64(la.Above(lb)) / math.Log10(a/b)
		if a != b && math.Abs(math.Log10(a/b)) > 1e-6 && (k < 40-1e-6 || k > 50+1e-6) {
			t.Fatalf("between %v and %v the level goes as %v·lg r, want 40 to 50", a, b, k)
		}
		low, high := SpeedBand(level(40), a)
		if low.DB() > la.DB() || high.DB() < la.DB() {
			t.Fatalf("AtSpeed(40, %v) = %v lies outside its band %v to %v", a, la, low, high)
		}
	})
}

func TestSpeedOutsideRange(t *testing.T) {
	if l, _ := AtSpeed(level(40), 0); !math.IsInf(l.DB(), -1) {
		t.Errorf("AtSpeed(40, 0) = %v, want -Inf", l.DB())
	}
	if l, _ := AtSpeed(level(40), -1); !math.IsNaN(l.DB()) {
		t.Errorf("AtSpeed(40, -1) = %v, want NaN", l.DB())
	}
	at := func(r float64) float64 { l, _ := AtSpeed(level(40), r); return l.DB() }
	check(t, "AtSpeed(40, just under 0.5)", at(0.5-1e-12), at(0.5), 1e-9, "the law has no step")
	check(t, "AtSpeed(40, 1)", at(1), 40, 0, "no change")
	check(t, "AtSpeed(40, 0.25)", at(0.25), 40-15.0515-12.0412, 1e-4, "50·lg 0.5 + 40·lg 0.5, common practice")
}

func TestDensity(t *testing.T) {
	at := func(rho quantity.Density) float64 { return AtDensity(level(40), rho).DB() }
	check(t, "AtDensity(40, 1.2)", at(1.2), 40, 0, "no change")
	check(t, "AtDensity(40, 0.6)", at(0.6), 40-6.0206, 1e-4, "20·lg 0.5")
}

// The allowance falls with the share, has one step of less than 0.1 dB, at 0.48,
// and lies within its band.
func TestOffBestShape(t *testing.T) {
	const step = 1e-4
	last, _, _ := OffBest(Axial, -0.1)
	for q := -0.1 + step; q < 1.2; q += step {
		m, low, high := OffBest(Axial, q)
		drop := last - m
		most := quantity.Decibel(0.004) // the steepest slope, 17.5/0.6 dB, over one step
		if math.Abs(q-quietShare) < 1.5*step {
			most = 0.0776 + 0.004
		}
		if drop < -1e-12 || drop > most {
			t.Fatalf("OffBest(Axial, %v) falls by %v from %v, want 0 to %v", q, drop, last, most)
		}
		half := 2.0
		if q < stallShare {
			half = 4
		}
		check(t, "low", float64(m-low), half, 1e-9, "±2 dB, below q = 0.3 ±4 dB")
		check(t, "high", float64(high-m), half, 1e-9, "±2 dB, below q = 0.3 ±4 dB")
		last = m
	}
}

func TestOffBestJoints(t *testing.T) {
	at := func(q float64) float64 { m, _, _ := OffBest(Axial, q); return float64(m) }
	check(t, "OffBest(Axial, under 0.3)", at(0.3-1e-12), at(0.3), 1e-9, "value runs on at 0.3")
	slope := func(q float64) float64 { return (at(q+1e-6) - at(q-1e-6)) / 2e-6 }
	check(t, "slope under 0.3", slope(0.3-2e-6), slope(0.3+2e-6), 0.001, "slope runs on at 0.3")
	check(t, "step at 0.48", at(0.48-1e-12)-at(0.48), 0.0776, 1e-6, "doc of OffBest")
	check(t, "OffBest(Axial, 0)", at(0), 8, 0, "at most 8 dB, common practice")
}

func TestOffBestWheels(t *testing.T) {
	rows := []struct {
		wheel             Wheel
		q                 float64
		middle, low, high quantity.Decibel
	}{
		{Axial, 1, 0, -2, 2},
		{Axial, 0.1, 8, 4, 12},
		{Centrifugal, 0.1, 0, -3, 2},
		{Centrifugal, 1, 0, -3, 2},
		{Mixed, 1, 0, -3, 2},
		{Mixed, 0.1, 4, -3, 12},
	}
	for _, r := range rows {
		m, low, high := OffBest(r.wheel, r.q)
		if m != r.middle || low != r.low || high != r.high {
			t.Errorf("OffBest(%v, %v) = %v, %v to %v, want %v, %v to %v", r.wheel, r.q, m, low, high, r.middle, r.low, r.high)
		}
	}
	for _, w := range []Wheel{0, 9} {
		if m, _, _ := OffBest(w, 0.5); !math.IsNaN(float64(m)) {
			t.Errorf("OffBest(%v, 0.5) = %v, want NaN", w, m)
		}
	}
	for _, w := range []Wheel{Axial, Mixed} {
		if m, _, _ := OffBest(w, math.NaN()); !math.IsNaN(float64(m)) {
			t.Errorf("OffBest(%v, NaN) = %v, want NaN", w, m)
		}
	}
}

// The band holds the room's formula: free air where the room is dead, 6 dB more
// at 1 m of a small room, and no more fall well beyond the critical distance.
func TestRoomBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := quantity.Area(rapid.Float64Range(5, 200).Draw(t, "room"))
		to := quantity.Length(rapid.Float64Range(0.2, 20).Draw(t, "to"))
		low, high := RoomBand(level(40), 1, to, room)
		if free := AtDistance(level(40), 1, to); low != free {
			t.Fatalf("low = %v, want free air %v", low, free)
		}
		// The source whose free-air level at 1 m on a surface is 40 dB.
		lw := quantity.PowerLevel(40 + 10*math.Log10(4*math.Pi/2))
		if want := InRoom(lw, 2, to, room).DB(); math.Abs(high.DB()-want) > 1e-9 {
			t.Fatalf("high = %v, want InRoom %v", high, want)
		}
	})
	_, near := RoomBand(level(40), 1, 1, SmallRoom)
	check(t, "RoomBand at 1 m, SmallRoom", near.DB(), 46, 0.25, "physics of small rooms: +6 dB, common practice")
	_, far := RoomBand(level(40), 1, 6, SmallRoom)
	_, farther := RoomBand(level(40), 1, 12, SmallRoom)
	check(t, "RoomBand at 6 and 12 m", far.DB(), farther.DB(), 0.05, "the level no longer falls")
	check(t, "CriticalDistance(SmallRoom)", float64(CriticalDistance(SmallRoom)), 0.6, 1e-12, "doc of SmallRoom")
	low, high := RoomBand(level(40), 1, 3, quantity.Area(math.Inf(1)))
	if low != high {
		t.Errorf("RoomBand in free air = %v to %v, want one level", low, high)
	}
}

// The round 11 dB lies 0.008 dB off the sphere's formula, as its doc says.
func TestFromPower(t *testing.T) {
	free := InRoom(quantity.PowerLevel(50), 1, LabelDistance, quantity.Area(math.Inf(1)))
	check(t, "FromPower(50)", FromPower(quantity.PowerLevel(50)).DB(), 39, 0, "Lw − 11")
	check(t, "InRoom − FromPower", free.DB()-FromPower(quantity.PowerLevel(50)).DB(), 0.008, 0.0005, "doc of FromPower")
}

// Loudness rises with level, without a step beyond the 0.0005 sone at 40 phon.
func TestLoudnessShape(t *testing.T) {
	const step = 0.01
	last, lastPhon := 0.0, Phon(level(-20))
	for db := -20 + step; db < 120; db += step {
		phon, sone := Phon(level(db)), SoneOf(level(db))
		if phon <= lastPhon || phon-lastPhon > 2*step || sone < last {
			t.Fatalf("at %v dB(A): %v phon after %v, %v sone after %v", db, phon, lastPhon, sone, last)
		}
		last, lastPhon = sone, phon
	}
	for phon := 5.0; phon < 40; phon++ {
		check(t, "phon of Sone", 40*math.Pow(Sone(phon)+0.0005, 0.35), phon, 1e-9, "ISO 532-1 the other way round, from memory")
	}
	check(t, "Sone(40)", Sone(40), 1, 0, "definition of the sone")
	check(t, "Sone under 40", Sone(40-1e-9), 0.9995, 1e-6, "ISO 532-1, the lower branch")
	for _, phon := range []float64{-10, 0, 1} {
		if got := Sone(phon); got != 0 {
			t.Errorf("Sone(%v) = %v, want 0", phon, got)
		}
	}
}

func TestPhonKnots(t *testing.T) {
	for _, r := range []struct{ dba, want float64 }{
		{-5, -5}, {0, 0}, {10, 11}, {20, 22}, {25, 31.5}, {30, 41}, {40, 57}, {45, 62.5}, {50, 68}, {60, 78},
	} {
		check(t, "Phon", Phon(level(r.dba)), r.want, 1e-12, "interim offsets, an estimate")
	}
}

func TestUnderFloor(t *testing.T) {
	if !UnderFloor(level(9.99)) || UnderFloor(level(10)) {
		t.Error("UnderFloor must begin just below 10 dB(A)")
	}
}

func TestTachFrequency(t *testing.T) {
	if got := TachFrequency(2, 3000*quantity.RevolutionPerMinute); math.Abs(float64(got)-100) > 1e-9 {
		t.Errorf("TachFrequency(2, 3000 rpm) = %v, want 100", got)
	}
}

// Everything here runs for each of many fans, so nothing may allocate.
func TestNoAllocation(t *testing.T) {
	var sink float64
	allocs := testing.AllocsPerRun(100, func() {
		l, _ := AtSpeed(level(40), 0.4)
		l, _, _ = Subtract(Sum(l, level(30)), level(10))
		m, low, high := OffBest(Axial, 0.4)
		a, b := RoomBand(l.Plus(m+low+high), 1, 2, SmallRoom)
		sink += SoneOf(a) + SoneOf(b) + AtDensity(a, 1.1).DB()
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
		sink += SoneOf(l.Plus(m))
	}
	_ = sink
}
