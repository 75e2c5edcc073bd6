package acoustics

import (
	"fmt"
	"math"
	"slices"

	"lowsone/catalog/quantity"
)

// Width is the width of the bands of a spectrum that was read.
type Width uint8

// The widths.
const (
	ThirdWide  Width = iota + 1 // a third of an octave
	OctaveWide                  // an octave
)

// String gives the bands of that width in words.
func (w Width) String() string {
	switch w {
	case ThirdWide:
		return "third octaves"
	case OctaveWide:
		return "octaves"
	}
	return fmt.Sprintf("Width(%d)", uint8(w))
}

// Weighting says how band levels that are read have been weighted.
type Weighting uint8

// The weightings.
const (
	Unweighted Weighting = iota
	AWeighted
)

// BandReading is a spectrum that was read from band levels, and what was found
// there.
type BandReading struct {
	Thirds Thirds // unweighted
	Width  Width  // of the bands as they were given
	// Low and High list the nominal mid-band frequencies from 25 Hz up and up
	// to 12.5 kHz (octaves: 31.5 Hz and 8 kHz) that were not given. They count
	// as no sound.
	Low, High []quantity.Frequency
	// Outside lists the bands below and above those, which were left out.
	Outside []quantity.BandLevel
}

const (
	nearBand   = 0.03 // most that a frequency may lie off its band's exact one: nominal ones lie up to 1 % off
	mostLevel  = 130  // dB, above which no level of a device is believed
	firstNeed3 = 20   // 100 Hz, as exponents of 10^(n/10) Hz: thirds that must be there
	lastNeed3  = 39   // 8 kHz
	firstNeed1 = 21   // 125 Hz: octaves that must be there
	lastNeed1  = 36   // 4 kHz
	leastKnown = 0    // 1 Hz: bands that are left out if they are given
	mostKnown  = 46   // 40 kHz
)

// ReadBands makes a spectrum of band levels in dB re 20 µPa, given in any order.
// Frequencies are nominal or exact mid-band frequencies of octaves or of third
// octaves, to 3 %, all of one width; without a band between two octaves they are
// octaves. Octaves become thirds by the method Thirds of Octaves; A-weighted
// ones still weighted, so that the A-weighted level of each stays what it was,
// and the weighting is taken off the thirds.
//
// Thirds from 100 Hz to 8 kHz or octaves from 125 Hz to 4 kHz must be there.
// Those beyond may be missing, not so one between two that are there. What
// cannot be read is a *BandError.
func ReadBands(levels []quantity.BandLevel, weighting Weighting) (BandReading, error) {
	placed, err := place(levels)
	if err != nil {
		return BandReading{}, err
	}
	r := BandReading{Width: OctaveWide, Outside: placed.outside}
	if len(placed.betweenOctaves()) > 0 {
		r.Width = ThirdWide
	}
	if err := placed.complete(r.Width); err != nil {
		return BandReading{}, err
	}
	r.Low, r.High = placed.ends(r.Width)
	r.Thirds = placed.thirds(r.Width)
	if weighting == AWeighted {
		r.takeOffA()
	}
	return r, r.believable()
}

// takeOffA takes the A-weighting off the thirds.
func (r *BandReading) takeOffA() {
	for i := range r.Thirds {
		r.Thirds[i] -= thirdsA[i]
	}
	if r.Width == OctaveWide { // the one third in no octave goes on with the unweighted slope
		r.Thirds[NumThirds-1] = goOn(r.Thirds[NumThirds-2], r.Thirds[NumThirds-3], 1)
	}
}

// believable refuses a level that is too high once its weighting is off.
func (r *BandReading) believable() error {
	for i, l := range r.Thirds {
		if l > mostLevel {
			at := quantity.Frequency(ThirdNominal[i])
			return &BandError{Fault: TooLoud, Band: quantity.BandLevel{Frequency: at, Level: quantity.Decibel(l)}}
		}
	}
	return nil
}

// bandSet holds band levels by their third octave.
type bandSet struct {
	levels  Thirds // -Inf where none was given
	given   [NumThirds]bool
	outside []quantity.BandLevel
}

// place puts each level to its band.
func place(levels []quantity.BandLevel) (bandSet, error) {
	s := bandSet{levels: SumThirds()}
	var outside []int
	for _, l := range levels {
		n, ok := bandOf(l.Frequency)
		i := n - firstThird
		inside := i >= 0 && i < NumThirds
		switch {
		case !ok:
			return s, &BandError{Fault: NoBand, Band: l}
		case !isFinite(float64(l.Level)):
			return s, &BandError{Fault: NoNumber, Band: l}
		case l.Level > mostLevel:
			return s, &BandError{Fault: TooLoud, Band: l}
		case inside && s.given[i], slices.Contains(outside, n):
			return s, &BandError{Fault: Repeated, Band: l}
		case inside:
			s.given[i], s.levels[i] = true, float64(l.Level)
		default:
			outside = append(outside, n)
			s.outside = append(s.outside, l)
		}
	}
	return s, nil
}

// bandOf gives the exponent n of the band at 10^(n/10) Hz that f names, and
// whether f lies close enough to one.
func bandOf(f quantity.Frequency) (n int, ok bool) {
	if !(f > 0) || math.IsInf(float64(f), 0) {
		return 0, false
	}
	n = int(math.Round(10 * math.Log10(float64(f))))
	off := math.Abs(float64(f)/math.Pow(10, float64(n)/10) - 1)
	return n, off <= nearBand && n >= leastKnown && n <= mostKnown
}

// isOctave says whether the band at 10^(n/10) Hz lies in the middle of an octave.
func isOctave(n int) bool { return (n-firstOctave)%perOctave == 0 }

// between gives the nominal frequencies of the bands of width w with exponents
// from first to last that were not given.
func (s *bandSet) between(w Width, first, last int) (missing []quantity.Frequency) {
	for n := max(first, firstThird); n <= min(last, firstThird+NumThirds-1); n++ {
		if (w == ThirdWide || isOctave(n)) && !s.given[n-firstThird] {
			missing = append(missing, quantity.Frequency(ThirdNominal[n-firstThird]))
		}
	}
	return missing
}

// span gives the exponents of the lowest and the highest band that was given; the
// first is above the second where none was.
func (s *bandSet) span() (low, high int) {
	low, high = firstThird+NumThirds, firstThird-1
	for i, given := range s.given {
		if given {
			low, high = min(low, firstThird+i), max(high, firstThird+i)
		}
	}
	return low, high
}

// complete says what keeps the bands from being a spectrum of that width.
func (s *bandSet) complete(w Width) error {
	low, high := s.span()
	missing := s.between(w, low, high)
	if w == ThirdWide && len(missing) > s.count() {
		return &BandError{Fault: MixedWidths, Bands: s.betweenOctaves(), Width: OctaveWide}
	}
	if len(missing) > 0 {
		return &BandError{Fault: MissingBands, Bands: missing, Width: w}
	}
	first, last := firstNeed3, lastNeed3
	if w == OctaveWide {
		first, last = firstNeed1, lastNeed1
	}
	if missing := s.between(w, first, last); len(missing) > 0 {
		return &BandError{Fault: TooFewBands, Bands: missing, Width: w}
	}
	return nil
}

func (s *bandSet) count() (n int) {
	for _, given := range s.given {
		if given {
			n++
		}
	}
	return n
}

// betweenOctaves gives the nominal frequencies of the bands that lie where no
// octave does.
func (s *bandSet) betweenOctaves() (odd []quantity.Frequency) {
	for i, given := range s.given {
		if given && !isOctave(firstThird+i) {
			odd = append(odd, quantity.Frequency(ThirdNominal[i]))
		}
	}
	return odd
}

// ends gives the bands that are missing below and above those that are there.
func (s *bandSet) ends(w Width) (below, above []quantity.Frequency) {
	low, high := s.span()
	return s.between(w, firstThird, low-1), s.between(w, high+1, firstThird+NumThirds-1)
}

// thirds gives the levels as thirds, weighted as they were given.
func (s *bandSet) thirds(w Width) Thirds {
	if w == ThirdWide {
		return s.levels
	}
	var o Octaves
	for i := range o {
		o[i] = s.levels[perOctave*i+1]
	}
	return o.Thirds()
}
