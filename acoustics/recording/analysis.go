package recording

import (
	"lowsone/catalog/quantity"
)

// Analysis is what a recording tells without a calibration: levels re full scale,
// good for differences between recordings of one gain, and what does not hang on
// a gain.
type Analysis struct {
	Name     string
	Format   Format
	Duration quantity.Time // what was analysed

	// Level is the A-weighted level, as a meter on "fast" shows it. It and Trace
	// leave out a quarter window (0.25 to 0.5 s) at both ends.
	Level Levels
	// Trace is the A-weighted equivalent level of each second.
	Trace Trace
	// C and Overall are the C-weighted and the unweighted level, from the lower
	// edge of the 25 Hz band to 22.4 kHz or half the sampling rate.
	C, Overall FullScale
	// Thirds is the third-octave spectrum: NaN where the sampling rate does not
	// reach.
	Thirds Thirds
	// Tones are the tones in the spectrum, by frequency.
	Tones []Tone
	// Channels are the channels by themselves; all else is their energy mean,
	// without those that are silent.
	Channels []Channel
	// Findings are what spoils or limits the recording, in a fixed order.
	Findings []Finding

	filtered Thirds    // as filters have them, for loudness
	power    []float64 // mean square by bin
	step     float64   // Hz a bin
}

// Levels are A-weighted levels of a recording. Times count from its beginning,
// also where only a part was analysed.
type Levels struct {
	Equivalent    FullScale // L_eq: the level of a steady sound of the same energy
	Max           FullScale // largest level on "fast"
	MaxAt         quantity.Time
	L10, L50, L90 FullScale // exceeded for 10, 50, 90 % of the time, on "fast"; to 0.1 dB
}

// Trace is a level over time: a value each Step from Start.
type Trace struct {
	Start, Step quantity.Time
	Levels      []FullScale
}

// Channel is one channel of a recording.
type Channel struct {
	Level   FullScale // A-weighted, equivalent
	Peak    float64   // largest sample, as a share of full scale
	Offset  float64   // mean sample, as a share of full scale; it is no sound and is left out
	Silent  bool      // samples do not differ, or by less than any microphone gives
	Clipped Clipping
}

// Clipping is how much of a channel stands at full scale.
type Clipping struct {
	Share   float64 // of all samples
	Runs    int64   // of three and more samples in a row: a wave that was cut off
	Longest int64   // samples of the longest run
}

// Spread gives the standard deviation in dB that the level of third octave i has
// in random noise, for want of time (see [Spread]).
func (a *Analysis) Spread(i int) quantity.Decibel { return Spread(thirdWidth(i), a.Duration) }

// Resolution is how far the lines of the narrow-band spectrum lie apart.
func (a *Analysis) Resolution() quantity.Frequency { return quantity.Frequency(a.step) }
