package acoustics

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The tolerances of the bands, and that one band alone has just that.
func TestMeterTolerances(t *testing.T) {
	for i, r := range records(t, "sound_meter_tolerance.csv") {
		if i > NumOctaves {
			continue // 16 kHz: no band here
		}
		source := r["edition"] + ", " + r["status"] + ", " + r["source"]
		for class, meter := range []Meter{Class1, Class2} {
			columns := []string{"class1_plus_db", "class1_minus_db", "class2_plus_db", "class2_minus_db"}[2*class:]
			got := meterLimits[class][i]
			check(t, meter.String()+" above at "+r["freq_hz"]+" Hz", got.above, number(t, r[columns[0]]), 0, source)
			if r[columns[1]] == "-inf" {
				check(t, meter.String()+" share at "+r["freq_hz"]+" Hz", fromDecibel(got.below), 0, 0, source)
				continue
			}
			check(t, meter.String()+" below at "+r["freq_hz"]+" Hz", got.below, number(t, r[columns[1]]), 0, source)
			one := SumThirds()
			one[min(3*i+1, NumThirds-1)] = 40
			want := math.Max(got.above, -got.below)
			check(t, meter.String()+".HalfWidth of "+r["freq_hz"]+" Hz alone", float64(meter.HalfWidth(&one)), want, 1e-9, source)
		}
	}
}

// The half width lies between the least and the largest tolerance of the bands
// with sound, and a class 2 meter has the larger one.
func TestHalfWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpectrum(t, "s")
		s[17], s[27] = 40, math.Inf(-1) // class 2 has no bound at 12.5 kHz
		one, two := float64(Class1.HalfWidth(&s)), float64(Class2.HalfWidth(&s))
		if !(one >= 1.1-1e-9 && one <= 3.1+1e-9 && two >= 1.4-1e-9 && two <= 5.6+1e-9 && one < two) {
			t.Fatalf("HalfWidth(%v) = %v and %v, want 1.1 to 3.1 and 1.4 to 5.6", s, one, two)
		}
	})
}

// A pin: what the meters are good for with a typical fan.
func TestHalfWidthOfFan(t *testing.T) {
	s := vdiAxial.at3000.Thirds.ScaledTo(level(40))
	check(t, "Class1.HalfWidth(typical axial fan)", float64(Class1.HalfWidth(&s)), 1.5, 0.05, "pin: our own figure")
	check(t, "Class2.HalfWidth(typical axial fan)", float64(Class2.HalfWidth(&s)), 2.7, 0.05, "pin: our own figure")
}

// Phones were tested between two levels, which the source names; outside them
// nothing is known.
func TestPhone(t *testing.T) {
	row := recordOf(t, records(t, "sound_perception.csv"), "P20")
	_, after, _ := strings.Cut(row["value"], "pink noise ")
	low, high, _ := strings.Cut(after, "-")
	check(t, "least level of a phone", phoneLow, number(t, low), 0, row["source"])
	check(t, "largest level of a phone", phoneHigh, number(t, high), 0, row["source"])
	pink := Thirds{}
	for _, r := range []struct{ dba, want float64 }{{30, math.NaN()}, {64.9, math.NaN()}, {70, 5}, {95.1, math.NaN()}} {
		s := pink.ScaledTo(level(r.dba))
		if got := float64(Phone.HalfWidth(&s)); got != r.want && !(math.IsNaN(got) && math.IsNaN(r.want)) {
			t.Errorf("Phone.HalfWidth(%v dB(A)) = %v, want %v", r.dba, got, r.want)
		}
	}
}

func TestChangeHalfWidth(t *testing.T) {
	for _, m := range []Meter{Class1, Class2, Phone} {
		pink := Thirds{}
		s := pink.ScaledTo(level(70))
		if change := m.ChangeHalfWidth(); !(change > 0 && change < m.HalfWidth(&s)) {
			t.Errorf("%v: %v dB for a change, %v for a level, want less for a change", m, change, m.HalfWidth(&s))
		}
	}
	silent := SumThirds()
	for _, got := range []float64{float64(Meter(0).ChangeHalfWidth()), float64(Meter(9).HalfWidth(&silent)), float64(Class1.HalfWidth(&silent))} {
		if !math.IsNaN(got) {
			t.Errorf("no meter, no sound: %v, want NaN", got)
		}
	}
}
