package loudness

import (
	"errors"
	"math"
	"testing"
)

func TestCheck(t *testing.T) {
	for _, r := range []struct {
		level float64
		want  string
	}{
		{math.NaN(), "third octave of 31.5 Hz: the level is unknown"},
		{math.Inf(1), "third octave of 31.5 Hz: a level of +Inf dB is above 130 dB"},
		{130.5, "third octave of 31.5 Hz: a level of 130.5 dB is above 130 dB"},
		{130, ""},
		{StandardMost, ""},
		{math.Inf(-1), ""},
		{-300, ""},
	} {
		l := pinkNoise()
		l[1] = r.level
		err := Check(&l)
		if r.want == "" {
			if err != nil {
				t.Errorf("Check with %v dB: %v", r.level, err)
			}
			continue
		}
		var at *LevelError
		if !errors.As(err, &at) || at.Band != 1 || err.Error() != r.want {
			t.Errorf("Check with %v dB: %v, want %s", r.level, err, r.want)
		}
	}
}

func TestFieldNames(t *testing.T) {
	if Free.String() != "free" || Diffuse.String() != "diffuse" || Field(7).String() != "Field(7)" {
		t.Errorf("%v, %v, %v", Free, Diffuse, Field(7))
	}
}
