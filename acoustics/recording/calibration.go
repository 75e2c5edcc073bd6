package recording

import (
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/catalog/quantity"
)

// Calibration turns levels re full scale into sound pressure levels: what a meter
// showed while a recording was made. It holds for other recordings of the same
// device at the same place with the same gain.
type Calibration struct {
	fullScale quantity.Decibel // sound pressure level in dB re 20 µPa of 0 dB re full scale
	from      string           // name of the recording
}

// FullScale gives the unweighted sound pressure level in dB re 20 µPa of a sound
// of 0 dB re full scale.
func (c Calibration) FullScale() quantity.Decibel { return c.fullScale }

// From names the recording that the meter was read beside.
func (c Calibration) From() string { return c.from }

// Limits of what a meter can have shown, in dB.
const (
	leastReading = 0.0
	mostReading  = 130.0
)

// Calibrate sets the scale of a by the A-weighted level that a meter showed, as
// its mean over the recording. A level that is no number or not within 0 to 130
// dB is an [*Error].
func (a *Analysis) Calibrate(shown quantity.SoundPressureLevel) (*Calibrated, error) {
	return a.calibrate(shown.DB(), a.Level.Equivalent, "dB(A)")
}

// CalibrateC is Calibrate for a C-weighted level.
func (a *Analysis) CalibrateC(shown quantity.Decibel) (*Calibrated, error) {
	return a.calibrate(float64(shown), a.C, "dB(C)")
}

// CalibrateOverall is Calibrate for an unweighted level.
func (a *Analysis) CalibrateOverall(shown quantity.Decibel) (*Calibrated, error) {
	return a.calibrate(float64(shown), a.Overall, "dB")
}

func (a *Analysis) calibrate(shown float64, recorded FullScale, unit string) (*Calibrated, error) {
	if !(shown >= leastReading && shown <= mostReading) {
		return nil, &Error{
			File: a.Name, Err: ErrLevel,
			Reason: fmt.Sprintf("a level of %g %s is not within %g to %g", shown, unit, leastReading, mostReading),
			Hint:   "give what the meter showed during the recording",
		}
	}
	if math.IsInf(recorded.db, 0) {
		return nil, &Error{File: a.Name, Err: ErrSilent, Reason: "there is no sound that a level could belong to"}
	}
	return a.With(Calibration{quantity.Decibel(shown - recorded.db), a.Name}), nil
}

// With takes the scale from another recording.
func (a *Analysis) With(c Calibration) *Calibrated {
	scaled := &Calibrated{a, c}
	scaled.analysis = scaled.audible()
	return scaled
}

// Calibrated is an analysis with its scale: sound pressure levels where the
// microphone was.
type Calibrated struct {
	analysis    *Analysis
	calibration Calibration
}

// Analysis is what was recorded, re full scale, without the tones that by this
// scale lie below the threshold of hearing.
func (c *Calibrated) Analysis() *Analysis { return c.analysis }

// Calibration is what sets the scale.
func (c *Calibrated) Calibration() Calibration { return c.calibration }

// SoundLevels are the A-weighted sound pressure levels of a recording: see
// [Levels].
type SoundLevels struct {
	Equivalent    quantity.SoundPressureLevel
	Max           quantity.SoundPressureLevel
	MaxAt         quantity.Time
	L10, L50, L90 quantity.SoundPressureLevel
}

// Level gives the A-weighted levels.
func (c *Calibrated) Level() SoundLevels {
	l := c.analysis.Level
	return SoundLevels{c.weighted(l.Equivalent), c.weighted(l.Max), l.MaxAt, c.weighted(l.L10), c.weighted(l.L50), c.weighted(l.L90)}
}

// Trace gives the A-weighted equivalent level of each second, at the times of the
// analysis' Trace.
func (c *Calibrated) Trace() []quantity.SoundPressureLevel {
	levels := make([]quantity.SoundPressureLevel, len(c.analysis.Trace.Levels))
	for i, l := range c.analysis.Trace.Levels {
		levels[i] = c.weighted(l)
	}
	return levels
}

// C gives the C-weighted level in dB re 20 µPa.
func (c *Calibrated) C() quantity.Decibel { return c.absolute(c.analysis.C) }

// Overall gives the unweighted level in dB re 20 µPa.
func (c *Calibrated) Overall() quantity.Decibel { return c.absolute(c.analysis.Overall) }

// Thirds gives the third-octave spectrum between the exact edges of the bands.
func (c *Calibrated) Thirds() acoustics.Thirds { return c.thirds(c.analysis.Thirds) }

// Loudness gives the loudness of the sound as if it were steady, by ISO 532-1
// from third-octave levels with the skirts of filters. Where bands are not known
// or above 130 dB it is an error.
func (c *Calibrated) Loudness(f loudness.Field) (loudness.Pattern, error) {
	t := c.thirds(c.analysis.filtered)
	if err := loudness.Check(&t); err != nil {
		return loudness.Pattern{}, &Error{
			File: c.analysis.Name, Err: ErrBands, Cause: err,
			Reason: "no loudness can be told: " + err.Error(),
			Hint:   "it takes all third octaves from 25 Hz to 12.5 kHz: record with 44100 Hz or more",
		}
	}
	return loudness.Analyse(&t, f), nil
}

func (c *Calibrated) thirds(t Thirds) (out acoustics.Thirds) {
	for i, l := range t {
		out[i] = float64(c.absolute(l))
	}
	return out
}

// weighted gives the sound pressure level of an A-weighted level.
func (c *Calibrated) weighted(l FullScale) quantity.SoundPressureLevel {
	return quantity.PressureLevel(float64(c.absolute(l)))
}

func (c *Calibrated) absolute(l FullScale) quantity.Decibel {
	return quantity.Decibel(l.db) + c.calibration.fullScale
}
