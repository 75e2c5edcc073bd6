package loudness

import (
	"encoding/binary"
	"math"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"

	"pgregory.net/rapid"
)

// spectra draws spectra as they may be measured, with silent bands.
func spectra() *rapid.Generator[acoustics.Thirds] {
	return rapid.Custom(func(t *rapid.T) (l acoustics.Thirds) {
		for i := range l {
			l[i] = rapid.Float64Range(-30, 120).Draw(t, "level")
			if rapid.IntRange(0, 9).Draw(t, "silent") == 0 {
				l[i] = math.Inf(-1)
			}
		}
		return l
	})
}

func fields() *rapid.Generator[Field] { return rapid.SampledFrom([]Field{Free, Diffuse}) }

// More in one band is never less loud, nor less anywhere in the pattern.
func TestMonotoneInEachBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, f := spectra().Draw(t, "spectrum"), fields().Draw(t, "field")
		before := Analyse(&l, f)
		more, band := l, rapid.IntRange(0, acoustics.NumThirds-1).Draw(t, "band")
		more[band] = max(l[band], -30) + rapid.Float64Range(0, 20).Draw(t, "more")
		after := Analyse(&more, f)
		if after.Sone < before.Sone*(1-1e-12) {
			t.Fatalf("band %d from %v to %v dB: %v sone, then %v", band, l[band], more[band], before.Sone, after.Sone)
		}
		for i := range before.Specific {
			if after.Specific[i] < before.Specific[i]-1e-9 {
				t.Fatalf("band %d from %v to %v dB: at %v Bark %v, then %v",
					band, l[band], more[band], Bark(i), before.Specific[i], after.Specific[i])
			}
		}
	})
}

// The loudness is the area under the pattern, and at least that of its core
// loudnesses: flanks only add.
func TestAreaUnderPattern(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, f := spectra().Draw(t, "spectrum"), fields().Draw(t, "field")
		p := Analyse(&l, f)
		if got := Sone(&l, f); got != p.Sone {
			t.Fatalf("Sone = %v, Analyse %v", got, p.Sone)
		}
		area := 0.0
		for _, n := range p.Specific {
			area += n * 0.1
		}
		// A line of slope 13 at the most, summed in steps of 0.1 Bark.
		if math.Abs(area-p.Sone) > 0.03*p.Sone+0.01 {
			t.Fatalf("area %v, %v sone", area, p.Sone)
		}
		var c [allBands]float64
		core(&l, f, &c)
		flat, z := 0.0, 0.0
		for i, n := range c {
			flat += n * (bandEnd[i] - z)
			z = bandEnd[i]
		}
		if p.Sone < flat*(1-1e-9) {
			t.Fatalf("%v sone, core loudness alone %v", p.Sone, flat)
		}
	})
}

// A band that is heard adds loudness to a spectrum that does not hide it.
func TestABandMore(t *testing.T) {
	l := levelsOf(t, "reference_tone")
	tone := Sone(&l, Free)
	for _, band := range []int{0, 5, 10, 12, 20, 25, 27} {
		more := l
		more[band] = 75
		if got := Sone(&more, Free); got < 1.1*tone {
			t.Errorf("with 75 dB in band %d: %v sone, without %v", band, got, tone)
		}
	}
	hidden := l
	hidden[16], hidden[17], hidden[18] = 80, 60, 41
	before := Sone(&hidden, Free)
	hidden[18] = 25
	if got := Sone(&hidden, Free); got != before {
		t.Errorf("a band under the flank changes the loudness from %v to %v", before, got)
	}
}

// Which of the fields is louder goes by the sign of the table.
func TestFieldDifference(t *testing.T) {
	for i := lowGroups; i < coreBands; i++ {
		l := silence()
		l[i+lowBands-lowGroups] = 60
		free, diffuse := Sone(&l, Free), Sone(&l, Diffuse)
		if s := math.Copysign(1, diffuse-free); diffuseGain[i] != 0 && s != math.Copysign(1, diffuseGain[i]) {
			t.Errorf("core band %d: free %v, diffuse %v sone, table %v dB", i, free, diffuse, diffuseGain[i])
		}
		shifted := l.Plus(quantity.Decibel(diffuseGain[i]))
		check(t, "diffuse as free at the level at the ear", diffuse, Sone(&shifted, Free), 1e-9, "table A.5")
	}
}

func TestSilence(t *testing.T) {
	quiet := silence()
	copy(quiet[:], []float64{61, 41, 27, 17}) // together below the threshold of the lowest band
	empty := silence()
	for _, l := range []acoustics.Thirds{empty, quiet} {
		for _, f := range []Field{Free, Diffuse} {
			if got := Analyse(&l, f); got != (Pattern{Phon: leastPhon}) {
				t.Errorf("silence in the %v field: %v sone, %v phon", f, got.Sone, got.Phon)
			}
		}
	}
}

func TestUnknownLevel(t *testing.T) {
	for band := range acoustics.NumThirds {
		l := pinkNoise()
		l[band] = math.NaN()
		p := Analyse(&l, Free)
		if got := Sone(&l, Diffuse); !math.IsNaN(got) || !math.IsNaN(p.Sone) || !math.IsNaN(p.Phon) || !math.IsNaN(p.Specific[100]) {
			t.Errorf("NaN in band %d: %v sone", band, got)
		}
	}
}

func TestUnknownField(t *testing.T) {
	l := pinkNoise()
	if got := Sone(&l, 7); !math.IsNaN(got) {
		t.Errorf("field 7: %v sone", got)
	}
}

func TestEnergy(t *testing.T) {
	for db := -400.0; db < 400; db += 0.0137 {
		if want := math.Pow(10, db/10); math.Abs(energy(db)/want-1) > 1e-13 {
			t.Fatalf("energy(%v) = %v, want %v", db, energy(db), want)
		}
	}
	for _, r := range []struct{ db, want float64 }{
		{math.Inf(1), math.Inf(1)}, {math.Inf(-1), 0}, {3500, math.Inf(1)}, {-3500, 0}, {1e300, math.Inf(1)}, {-1e300, 0}, {0, 1},
	} {
		if got := energy(r.db); got != r.want {
			t.Errorf("energy(%v) = %v, want %v", r.db, got, r.want)
		}
	}
	if got := energy(math.NaN()); !math.IsNaN(got) {
		t.Errorf("energy(NaN) = %v", got)
	}
}

func TestPhon(t *testing.T) {
	for _, r := range []struct{ sone, phon float64 }{{1, 40}, {2, 50}, {4, 60}, {16, 80}, {0.0001108, 3}} {
		check(t, "Phon", Phon(r.sone), r.phon, 1e-4, "ISO 532-1: 40 phon are 1 sone, 10 phon double it; program: least 3 phon")
		check(t, "FromPhon", FromPhon(r.phon), r.sone, 1e-7, "the other way round")
	}
	last := 0.0
	for sone := 0.0; sone < 3; sone += 0.0001 {
		phon := Phon(sone)
		if phon < last {
			t.Fatalf("Phon(%v) = %v, below %v", sone, phon, last)
		}
		last = phon
	}
	for _, sone := range []float64{-1, math.NaN()} {
		if got := Phon(sone); !math.IsNaN(got) {
			t.Errorf("Phon(%v) = %v", sone, got)
		}
	}
	for _, phon := range []float64{-10, 0, 2} {
		if got := FromPhon(phon); got != 0 {
			t.Errorf("FromPhon(%v) = %v, want 0", phon, got)
		}
	}
}

func TestPhonAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		phon := rapid.Float64Range(leastPhon, 140).Draw(t, "phon")
		if got := Phon(FromPhon(phon)); math.Abs(got-phon) > 1e-9 {
			t.Fatalf("Phon(FromPhon(%v)) = %v", phon, got)
		}
	})
}

// FuzzSone: no levels make a panic, a loudness below 0, or a NaN that was not
// among them.
func FuzzSone(f *testing.F) {
	for _, l := range fans(f) {
		f.Add(bytesOf(l), false)
	}
	odd := acoustics.Thirds{math.Inf(1), math.Inf(-1), math.NaN(), 1e308, -1e308, 1, 2999, 3001}
	f.Add(bytesOf(odd), true)
	odd[2] = 0
	f.Add(bytesOf(odd), true)
	f.Fuzz(func(t *testing.T, data []byte, diffuse bool) {
		l, field, unknown := silence(), Free, false
		for i := 0; i < len(l) && 8*i+8 <= len(data); i++ {
			l[i] = math.Float64frombits(binary.LittleEndian.Uint64(data[8*i:]))
			unknown = unknown || math.IsNaN(l[i])
		}
		if diffuse {
			field = Diffuse
		}
		p := Analyse(&l, field)
		if got := Sone(&l, field); got < 0 || math.IsNaN(got) != unknown || got != p.Sone && !unknown {
			t.Fatalf("Sone(%v) = %v, Analyse %v", l, got, p.Sone)
		}
		for i, n := range p.Specific {
			if n < 0 || math.IsNaN(n) != unknown {
				t.Fatalf("N′ of %v at %v Bark = %v", l, Bark(i), n)
			}
		}
	})
}

func bytesOf(l acoustics.Thirds) (data []byte) {
	for _, level := range l {
		data = binary.LittleEndian.AppendUint64(data, math.Float64bits(level))
	}
	return data
}
