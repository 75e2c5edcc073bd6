package acoustics

import (
	"fmt"
	"strconv"
	"strings"

	"lowsone/catalog/quantity"
)

// BandFault says what is wrong with band levels.
type BandFault uint8

// The faults.
const (
	NoBand       BandFault = iota + 1 // the frequency is no band's: Band
	NoNumber                          // the level is NaN or infinite: Band
	TooLoud                           // the level is above 130 dB: Band
	Repeated                          // the band stands twice: Band is the second one
	MixedWidths                       // octaves with other bands among them: Bands are those
	MissingBands                      // bands between others are missing: Bands
	TooFewBands                       // bands that must be there are missing at the ends: Bands
)

// BandError is why band levels are no spectrum.
type BandError struct {
	Fault BandFault
	Band  quantity.BandLevel   // as it was given
	Bands []quantity.Frequency // nominal mid-band frequencies
	Width Width                // what the bands were taken for, where Bands is set
}

// Error names the band and what is wrong with it.
func (e *BandError) Error() string {
	at := quoteHz(float64(e.Band.Frequency))
	switch e.Fault {
	case NoBand:
		return fmt.Sprintf("read band levels: no band lies at %s Hz, the nearest at %s Hz", at, plainHz(e.Nearest()))
	case NoNumber:
		return fmt.Sprintf("read band levels: the level at %s Hz is %q, not a number", at, digits(float64(e.Band.Level)))
	case TooLoud:
		return fmt.Sprintf("read band levels: the level at %s Hz is %q dB, above 130 dB", at, digits(float64(e.Band.Level)))
	case Repeated:
		return fmt.Sprintf("read band levels: the band at %s Hz stands there twice", at)
	case MixedWidths:
		return fmt.Sprintf("read band levels: octaves and third octaves are mixed: at %s Hz lies no octave", listHz(e.Bands))
	case MissingBands:
		return fmt.Sprintf("read band levels: %v between others are missing: %s Hz", e.Width, listHz(e.Bands))
	case TooFewBands:
		need := "100 Hz to 8 kHz"
		if e.Width == OctaveWide {
			need = "125 Hz to 4 kHz"
		}
		return fmt.Sprintf("read band levels: too few %v: from %s all are needed, not given: %s Hz", e.Width, need, listHz(e.Bands))
	}
	return fmt.Sprintf("read band levels: fault %d", e.Fault)
}

// Nearest gives the nominal mid-band frequency of the third octave that lies
// nearest to Band, within 25 Hz to 12.5 kHz.
func (e *BandError) Nearest() quantity.Frequency {
	return quantity.Frequency(ThirdNominal[nearestThird(e.Band.Frequency)])
}

func listHz(bands []quantity.Frequency) string {
	texts := make([]string, len(bands))
	for i, f := range bands {
		texts[i] = quoteHz(float64(f))
	}
	return strings.Join(texts, ", ")
}

func quoteHz(f float64) string            { return strconv.Quote(digits(f)) }
func plainHz(f quantity.Frequency) string { return digits(float64(f)) }
func digits(v float64) string             { return strconv.FormatFloat(v, 'g', 6, 64) }
