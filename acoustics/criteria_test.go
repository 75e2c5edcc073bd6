package acoustics

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog/quantity"
)

// Every published curve is rated by its own number in each band alone.
func TestNCCurves(t *testing.T) {
	for _, r := range records(t, "sound_room_criteria.csv") {
		want := number(t, r["curve"][len("NC-"):])
		for i := 1; i < NumOctaves; i++ {
			s := silentOctaves()
			s[i] = number(t, r[trimmed(OctaveNominal[i])])
			got, err := NC(&s)
			if err != nil || got.Value != want || got.Limit != Within || got.Octave != i {
				t.Errorf("NC(%v dB at %v Hz) = %+v, %v, want %v (%s)", s[i], OctaveNominal[i], got, err, want, r["source"])
			}
		}
	}
}

// The edition of 2019 has the level at 31.5 Hz and agrees to 1 dB elsewhere.
func TestNCCurvesOf2019(t *testing.T) {
	rows := records(t, "sound_nc_2019.csv")
	for i := range numNC {
		r := rows[i]
		check(t, r["curve"]+" at 31.5 Hz", nc31Hz[i], number(t, r["31.5"]), 0, r["source"])
		for j, l := range ncCurves[i] {
			hz := trimmed(OctaveNominal[octaveNC+j])
			check(t, r["curve"]+" at "+hz+" Hz", l, number(t, r[hz]), 1, "doc of ncCurves: 1 dB; "+r["source"])
		}
	}
}

// The coefficients, and that a curve's levels are rated by its number.
func TestNRCurves(t *testing.T) {
	for i, r := range records(t, "sound_nr_curves.csv") {
		check(t, "NR a at "+r["octave_hz"]+" Hz", nrCurves[i].a, number(t, r["a_db"]), 0, r["status"]+", "+r["source"])
		check(t, "NR b at "+r["octave_hz"]+" Hz", nrCurves[i].b, number(t, r["b"]), 0, r["status"]+", "+r["source"])
		for _, nr := range []float64{0, 25, 30, 62.5, 130} {
			s := silentOctaves()
			s[i] = number(t, r["a_db"]) + number(t, r["b"])*nr
			got, err := NR(&s)
			if err != nil || got.Octave != i || got.Limit != Within && nr > 0 && nr < 130 {
				t.Errorf("NR(%v dB at %s Hz) = %+v, %v", s[i], r["octave_hz"], got, err)
			}
			check(t, "NR of a curve's own level", got.Value, nr, 1e-9, r["source"])
		}
	}
}

func silentOctaves() (s Octaves) {
	for i := range s {
		s[i] = math.Inf(-1)
	}
	return s
}

// Between curves the rating goes with the level; the band that lies highest
// decides.
func TestRatingBetweenCurves(t *testing.T) {
	s := Octaves{70, 57, 48, 41, 35, 31, 29, 28, 27} // NC-30, and 31.5 Hz that has no curve
	s[3] = 43                                        // halfway from NC-30 to NC-35 at 250 Hz
	got, err := NC(&s)
	if err != nil || got != (Rating{Value: 32.5, Octave: 3}) {
		t.Errorf("NC(NC-30 with 43 dB at 250 Hz) = %+v, %v, want 32.5 at 250 Hz", got, err)
	}
}

func TestRatingLimits(t *testing.T) {
	quiet, loud := Octaves{}, Octaves{}
	for i := range quiet {
		quiet[i], loud[i] = -20, 150
	}
	low, high, silent := quiet, loud, silentOctaves()
	for _, r := range []struct {
		name string
		rate func(*Octaves) (Rating, error)
		s    *Octaves
		want Rating
	}{
		{"NC below", NC, &low, Rating{15, Under, 8}},
		{"NC above", NC, &high, Rating{70, Over, 8}},
		{"NC of silence", NC, &silent, Rating{15, Under, -1}},
		{"NR below", NR, &low, Rating{0, Under, 8}},
		{"NR above", NR, &high, Rating{130, Over, 8}},
		{"NR of silence", NR, &silent, Rating{0, Under, -1}},
	} {
		if got, err := r.rate(r.s); err != nil || got != r.want {
			t.Errorf("%s = %+v, %v, want %+v", r.name, got, err, r.want)
		}
	}
	unknown := quiet
	unknown[3] = math.NaN()
	const want = `rate by NC: the level of the octave at "250" Hz is not known`
	if _, err := NC(&unknown); err == nil || err.Error() != want {
		t.Errorf("NC with 250 Hz unknown: %v, want %s", err, want)
	}
	if _, err := NR(&unknown); err == nil {
		t.Error("NR with 250 Hz unknown: no error")
	}
}

// A rating never falls when a band is raised.
func TestRatingsRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s Octaves
		for i := range s {
			s[i] = rapid.Float64Range(0, 90).Draw(t, "level")
		}
		up := s
		up[rapid.IntRange(0, NumOctaves-1).Draw(t, "octave")] += rapid.Float64Range(0, 20).Draw(t, "more")
		for _, rate := range []func(*Octaves) (Rating, error){NC, NR} {
			before, _ := rate(&s)
			after, _ := rate(&up)
			if after.Value < before.Value {
				t.Fatalf("rating of %v = %+v, of %v = %+v", s, before, up, after)
			}
		}
	})
}

// A quiet room has the level asked for, rises band by band with it, and lies on
// its NC curve.
func TestQuietRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(5, 90).Draw(t, "level")
		room, louder := QuietRoom(level(a)), QuietRoom(level(a+0.5))
		if math.Abs(room.A().DB()-a) > 1e-9 {
			t.Fatalf("QuietRoom(%v) has %v dB(A)", a, room.A().DB())
		}
		for i := range room {
			if !(louder[i] > room[i]) {
				t.Fatalf("QuietRoom: %v dB at band %d for %v dB(A), %v for %v", room[i], i, a, louder[i], a+0.5)
			}
		}
		octaves := room.Octaves()
		low, high := math.Inf(1), math.Inf(-1)
		for i := octaveNC; i < NumOctaves; i++ {
			v := ncOf(i, octaves[i])
			low, high = min(low, v), max(high, v)
		}
		if inside := a > ncLevels[0] && a < ncLevels[numNC-1]; inside && high-low > 1 {
			t.Fatalf("QuietRoom(%v) lies between NC %v and %v, want one curve", a, low, high)
		}
	})
	for _, end := range []struct{ at, beyond float64 }{{ncLevels[0], 5}, {ncLevels[numNC-1], 95}} {
		there, beyond := QuietRoom(level(end.at)), QuietRoom(level(end.beyond))
		for i := range there {
			check(t, "QuietRoom beyond the curves", beyond[i]-there[i], end.beyond-end.at, 1e-6, "the shape of the last curve")
		}
	}
	if got := QuietRoom(level(math.NaN())); !math.IsNaN(got[0]) {
		t.Errorf("QuietRoom(NaN) = %v, want NaN", got)
	}
	if allocs := testing.AllocsPerRun(10, func() { _ = QuietRoom(quantity.PressureLevel(30)) }); allocs != 0 {
		t.Errorf("QuietRoom: %v allocations a run, want none", allocs)
	}
}
