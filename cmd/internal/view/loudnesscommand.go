package view

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// BandLoudness is how loud a spectrum is that was given by its bands.
type BandLoudness struct {
	File string // empty for levels of a flag
	acoustics.BandReading
	Weighting acoustics.Weighting // of the levels as they were given
	Notes     []string            // how they were read
	Level     quantity.Known[quantity.SoundPressureLevel]
	Field     loudness.Field
	Pattern   loudness.Pattern
	Ratings   []Rating
	Halving   float64 // dB less for half the loudness; NaN where nothing is heard
	Room      *RoomNoise
}

// RoomNoise is the noise of a room beside a sound.
type RoomNoise struct {
	File      string // with the device off; empty for a typical spectrum of a level
	Width     acoustics.Width
	Weighting acoustics.Weighting
	Notes     []string
	Thirds    acoustics.Thirds
	Sone      float64
	// Alone is the sound without the room, AtMost the bands of it that are upper
	// bounds, Drowned those of which nothing can be told.
	Alone           acoustics.Thirds
	AloneSone       float64
	AtMost, Drowned []int
	Added           float64 // sone that the sound adds to the room
}

// Text writes it for people.
func (d *BandLoudness) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	var f facts
	f.add("levels", sourceText(cmp.Or(d.File, "as given"), d.Width, d.Weighting))
	for _, note := range d.Notes {
		f.add("note", note)
	}
	if level, ok := d.Level.Get(); ok {
		f.add("scale", fmt.Sprintf("set as a whole so that it has the %s dB(A) that a meter showed", Trim(Fixed(level.DB(), 1))))
	}
	f.add("level", fmt.Sprintf("%s dB(A), %s dB(C), %s dB unweighted", Fixed(d.Thirds.A().DB(), 1), Fixed(float64(d.Thirds.C()), 1), Fixed(float64(d.Thirds.Overall()), 1)))
	f = append(f, patternFacts(&d.Pattern, d.Field)...)
	if !math.IsNaN(d.Halving) {
		f.add("half", Fixed(d.Halving, 1)+" dB less is half as loud")
	}
	f.add("rating", ratingText(d.Ratings))
	if d.Room != nil {
		f = append(f, d.roomFacts()...)
	}
	p.facts(f)
	p.line("")
	given := d.given()
	t := thirdsTable(&given, "", "not given, counts as without sound")
	if d.Width == acoustics.OctaveWide {
		t.Notes = append(t.Notes, "third octaves are estimated from octaves: how the sound lies inside an octave is not known")
	}
	p.noted(t)
	return p.err
}

// given is the spectrum with the bands that were not given as not known.
func (d *BandLoudness) given() acoustics.Thirds {
	given := d.Thirds
	for i, l := range given {
		if math.IsInf(l, -1) {
			given[i] = math.NaN()
		}
	}
	return given
}

// sourceText says what bands a table holds.
func sourceText(name string, width acoustics.Width, weighting acoustics.Weighting) string {
	weighted := "unweighted"
	if weighting == acoustics.AWeighted {
		weighted = "A-weighted"
	}
	return fmt.Sprintf("%s: %v, %s", name, width, weighted)
}

func (d *BandLoudness) roomFacts() facts {
	var f facts
	r := d.Room
	level := Fixed(r.Thirds.A().DB(), 1) + " dB(A), "
	if r.File == "" {
		f.add("room", level+Estimated(Digits(r.Sone, 2))+" sone (~ of a typical spectrum of that level)")
	} else {
		f.add("background", sourceText(r.File, r.Width, r.Weighting)+": "+level+Digits(r.Sone, 2)+" sone")
		for _, note := range r.Notes {
			f.add("note", r.File+": "+note)
		}
		f.add("alone", d.aloneText())
	}
	f.add("adds", Estimated(Digits(r.Added, 2))+" sone to the room without it (~ a simple model: what the ear notices when the sound is switched on; who listens for it hears more)")
	return f
}

// aloneText tells of the sound with the background taken off.
func (d *BandLoudness) aloneText() string {
	r := d.Room
	if math.IsInf(r.Alone.A().DB(), -1) {
		return "nothing: no band stands above the background"
	}
	said := fmt.Sprintf("%s dB(A), %s sone with the background taken off each band", Fixed(r.Alone.A().DB(), 1), Digits(r.AloneSone, 2))
	if len(r.AtMost) > 0 {
		said += "; at most, for it stands less than 3 dB above the background at " + bandsOf(r.AtMost)
	}
	if len(r.Drowned) > 0 {
		said += "; nothing can be told at " + bandsOf(r.Drowned)
	}
	return said
}

// bandsOf names third octaves.
func bandsOf(thirds []int) string {
	bands := make([]quantity.Frequency, len(thirds))
	for i, t := range thirds {
		bands[i] = quantity.Frequency(acoustics.ThirdNominal[t])
	}
	return Hertzes(bands)
}

// CSV lists the third octaves.
func (d *BandLoudness) CSV(w io.Writer) error {
	weighted := weightedThirds(&d.Thirds)
	rows := [][]string{{"hz", "unweighted_db", "weighted_dba"}}
	for i, hz := range acoustics.ThirdNominal {
		rows = append(rows, []string{catalog.Number(hz), finiteNumber(d.Thirds[i]), finiteNumber(weighted[i])})
	}
	return csv.NewWriter(w).WriteAll(rows)
}
