package loudness

import (
	"math"
	"testing"

	"lowsone/catalog/quantity"

	"pgregory.net/rapid"
)

func TestAddedBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		source, room := spectra().Draw(t, "source"), spectra().Draw(t, "room")
		f := fields().Draw(t, "field")
		own, got := Sone(&source, f), Added(&source, &room, f)
		if !(got >= 0 && got <= own) {
			t.Fatalf("%v sone added by a source of %v", got, own)
		}
		if both := Sone(&room, f) + got; own > both*(1+1e-12) {
			t.Fatalf("the source alone is %v sone, both together %v", own, both)
		}
		empty := silence()
		if got := Added(&source, &empty, f); got != own {
			t.Fatalf("%v sone added to silence by a source of %v", got, own)
		}
		if got := Added(&empty, &room, f); got != 0 {
			t.Fatalf("silence adds %v sone", got)
		}
	})
}

// A fan in a room whose noise rises: from its own loudness to nothing.
func TestAddedInALouderRoom(t *testing.T) {
	shapes := fans(t)
	shape := shapes["axial_octave_shape_a"]
	source := shape.ScaledTo(quantity.PressureLevel(35))
	own := Sone(&source, Free)
	for name, shape := range shapes {
		last := own
		for db := -10.0; db <= 90; db += 5 {
			room := shape.ScaledTo(quantity.PressureLevel(db))
			got := Added(&source, &room, Free)
			// The steps of the correction show as some hundredths of a sone.
			if got > last+0.1 {
				t.Errorf("%s at %v dB(A) adds %v sone, at 5 dB less %v", name, db, got, last)
			}
			last = got
		}
		faint, drowning := shape.ScaledTo(quantity.PressureLevel(-10)), shape.ScaledTo(quantity.PressureLevel(90))
		check(t, "Added to a faint room", Added(&source, &faint, Free), own, 0.01*own, "the source's own loudness")
		check(t, "Added to a drowning room", Added(&source, &drowning, Free), 0, 0.02, "nothing")
	}
}

// The same sound twice: 3 dB more, which is less than twice as loud.
func TestAddedTwin(t *testing.T) {
	source := fans(t)["axial_octave_shape_a"]
	twice := source.Plus(quantity.Decibel(10 * math.Log10(2)))
	want := Sone(&twice, Free) - Sone(&source, Free)
	check(t, "Added to its twin", Added(&source, &source, Free), want, 1e-9, "twice the energy is 3 dB")
}

func TestAddedUnknown(t *testing.T) {
	for _, level := range []float64{math.NaN(), math.Inf(1)} {
		source, room := pinkNoise(), pinkNoise()
		room[7] = level
		if got := Added(&source, &room, Free); !math.IsNaN(got) {
			t.Errorf("Added to a room with %v dB = %v", level, got)
		}
	}
	source, room := pinkNoise(), pinkNoise()
	source[7] = math.NaN()
	if got := Added(&source, &room, Free); !math.IsNaN(got) {
		t.Errorf("Added of an unknown source = %v", got)
	}
}
