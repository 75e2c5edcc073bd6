package match

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// The issue's own case: 245 Hz and its double are a fan of 7 blades at 2100 rpm.
func TestWhose(t *testing.T) {
	heatSink := Turning{Name: "heat sink", Blades: 7, Turns: 2050.0 / 60}
	supply := Turning{Name: "supply", Blades: 5, Turns: 4000.0 / 60, Measured: true}
	noBlades := Turning{Name: "third", Blades: math.NaN(), Turns: 1500.0 / 60, Measured: true}
	rows := []struct {
		name  string
		tones []float64
		fans  []Turning
		want  []Series // Hz, Tones, Maker, Fan, Turns
	}{
		{"a fan and its double", []float64{490, 245}, []Turning{supply, heatSink},
			[]Series{{Hz: 245, Tones: []int{1, 0}, Maker: MadeByFan, Fan: 1, Turns: 35}}},
		{"two fans", []float64{245, 332, 490}, []Turning{supply, heatSink},
			[]Series{{Hz: 245, Tones: []int{0, 2}, Maker: MadeByFan, Fan: 1, Turns: 35}, {Hz: 332, Tones: []int{1}, Maker: MadeByFan, Fan: 0, Turns: 66.4}}},
		{"a measured speed binds", []float64{305}, []Turning{supply},
			[]Series{{Hz: 305, Tones: []int{0}, Maker: MadeByUnknown, Fan: -1, Turns: math.NaN()}}},
		{"hum", []float64{100, 200, 300}, nil,
			[]Series{{Hz: 100, Tones: []int{0, 1, 2}, Maker: MadeByMains, Fan: -1, Turns: math.NaN()}}},
		{"mains take no fan's tone", []float64{100, 249, 498}, nil,
			[]Series{{Hz: 100, Tones: []int{0}, Maker: MadeByMains, Fan: -1, Turns: math.NaN()}, {Hz: 249, Tones: []int{1, 2}, Maker: MadeByUnknown, Fan: -1, Turns: math.NaN()}}},
		{"a multiple by chance is none", []float64{95, 4559}, nil,
			[]Series{{Hz: 95, Tones: []int{0}, Maker: MadeByUnknown, Fan: -1, Turns: math.NaN()}, {Hz: 4559, Tones: []int{1}, Maker: MadeByUnknown, Fan: -1, Turns: math.NaN()}}},
		{"blades by the speed", []float64{226}, []Turning{noBlades},
			[]Series{{Hz: 226, Tones: []int{0}, Maker: MadeByFan, Fan: 0, Turns: 226.0 / 9, Guessed: true}}},
		{"a speed by its label says nothing of blades", []float64{226}, []Turning{{Blades: math.NaN(), Turns: 25}},
			[]Series{{Hz: 226, Tones: []int{0}, Maker: MadeByUnknown, Fan: -1, Turns: math.NaN()}}},
		{"none", nil, []Turning{supply}, nil},
	}
	for _, r := range rows {
		got := Whose(r.tones, r.fans)
		same := slices.EqualFunc(got, r.want, func(a, b Series) bool {
			return near(a.Hz, b.Hz, 1e-9) && slices.Equal(a.Tones, b.Tones) && a.Maker == b.Maker && a.Fan == b.Fan && a.Guessed == b.Guessed &&
				(near(a.Turns, b.Turns, 1e-9) || math.IsNaN(a.Turns) && math.IsNaN(b.Turns))
		})
		if !same {
			t.Errorf("%s: Whose(%v) = %+v, want %+v", r.name, r.tones, got, r.want)
		}
	}
}

// Every tone is in one series, and no fan makes two.
func TestWhoseTakesEachToneOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tones := rapid.SliceOfNDistinct(rapid.Float64Range(80, 11000), 0, 20, rapid.ID).Draw(t, "tones")
		fans := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Turning {
			return Turning{Blades: float64(rapid.IntRange(3, 13).Draw(t, "blades")), Turns: rapid.Float64Range(5, 200).Draw(t, "turns"), Measured: rapid.Bool().Draw(t, "measured")}
		}), 0, 4).Draw(t, "fans")
		seen, makers := map[int]int{}, map[int]int{}
		for _, s := range Whose(tones, fans) {
			for _, i := range s.Tones {
				seen[i]++
			}
			if s.Maker == MadeByFan {
				makers[s.Fan]++
				if off := math.Abs(s.Hz/fans[s.Fan].Hz() - 1); off > labelOff {
					t.Fatalf("series at %v Hz given to a fan of %v Hz", s.Hz, fans[s.Fan].Hz())
				}
			}
		}
		for i := range tones {
			if seen[i] != 1 {
				t.Fatalf("tone %d stands in %d series, want 1", i, seen[i])
			}
		}
		for fan, n := range makers {
			if n > 1 {
				t.Fatalf("fan %d makes %d series, want 1 at most", fan, n)
			}
		}
	})
}
