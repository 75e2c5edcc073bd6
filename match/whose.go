package match

import (
	"cmp"
	"math"
	"slices"
)

// Heard tones that belong to one another, and what makes them.
//
// A fan of b blades at n turns a second makes tones at b·n and its multiples, a
// transformer or motor on the mains at twice the mains frequency and its
// multiples. Common practice; a tone alone proves nothing.

// Series is a tone with its multiples.
type Series struct {
	Hz     float64 // the lowest, 1 of Orders
	Tones  []int   // in the list that was given
	Orders []int   // which multiple each is
	Maker  Maker
	Fan    int     // in the list of fans, for MadeByFan
	Blades float64 // of it: known, or what its speed asks for
	Turns  float64 // of it, 1/s: what the tone asks for
	// Guessed: the number of blades is not recorded, it is the whole number that
	// tone and speed ask for.
	Guessed bool
	Off     float64 // speed by the tone over the speed known, less 1; NaN where that is not known
}

// Maker is what makes a series of tones.
type Maker uint8

// The makers.
const (
	MadeByUnknown Maker = iota
	MadeByFan
	MadeByMains
)

// How far a tone may lie from where it is looked for, as a share.
const (
	harmonicOff = 0.003 // of a multiple: both come from one recording; mains of 100 Hz do not take 498 Hz
	measuredOff = 0.03  // of a blade tone, at a measured speed
	labelOff    = 0.15  // and at a speed by label and supply: ±10 % of tolerance, and what the device does
	guessOff    = 0.02  // of a whole number of blades
	mainsOff    = 0.01  // of a mains frequency
)

// Blades of small fans: a guess outside is none (common practice).
const fewestBlades, mostBlades = 3, 13

// Whose sorts tones, in Hz, into series and says which fan makes each, where one
// may. A fan makes one series. The series come by their lowest tone.
func Whose(tones []float64, fans []Turning) []Series {
	order := make([]int, len(tones))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(tones[a], tones[b]) })
	w := whose{tones: tones, order: order, taken: make([]bool, len(tones))}
	w.ofFans(fans)
	for _, i := range order {
		if !w.taken[i] {
			w.take(Series{Hz: tones[i], Fan: -1, Off: math.NaN(), Blades: math.NaN(), Turns: math.NaN(), Maker: mainsOr(tones[i])})
		}
	}
	slices.SortFunc(w.found, func(a, b Series) int { return cmp.Compare(a.Hz, b.Hz) })
	return w.found
}

type whose struct {
	tones []float64
	order []int // by frequency
	taken []bool
	found []Series
}

// guess is a tone that may be a fan's blade tone.
type guess struct {
	series Series
	off    float64 // how far it lies off, for the best to come first
}

// ofFans takes the series of the fans, the surest first.
func (w *whose) ofFans(fans []Turning) {
	var all []guess
	for at := range fans {
		for _, i := range w.order {
			if g, ok := mayBe(w.tones[i], &fans[at], at); ok {
				all = append(all, g)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b guess) int {
		return cmp.Or(falseFirst(a.series.Guessed, b.series.Guessed), cmp.Compare(w.multiples(b.series.Hz), w.multiples(a.series.Hz)), cmp.Compare(a.off, b.off))
	})
	used := make([]bool, len(fans))
	for _, g := range all {
		if !used[g.series.Fan] && w.free(g.series.Hz) {
			used[g.series.Fan] = true
			w.take(g.series)
		}
	}
}

func falseFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// mayBe says whether a tone may be the blade tone of a fan.
func mayBe(hz float64, f *Turning, at int) (guess, bool) {
	s := Series{Hz: hz, Maker: MadeByFan, Fan: at, Blades: f.Blades, Off: math.NaN()}
	limit := labelOff
	if f.Measured {
		limit = measuredOff
	}
	switch {
	case !math.IsNaN(f.Hz()):
		s.Turns, s.Off = hz/f.Blades, hz/f.Hz()-1
		return guess{s, math.Abs(s.Off)}, math.Abs(s.Off) <= limit
	case !math.IsNaN(f.Turns) && f.Measured:
		blades := math.Round(hz / f.Turns)
		off := math.Abs(hz/f.Turns/blades - 1)
		s.Blades, s.Guessed, s.Turns, s.Off = blades, true, hz/blades, hz/f.Turns/blades-1
		return guess{s, off}, blades >= fewestBlades && blades <= mostBlades && off <= guessOff
	}
	return guess{}, false
}

// free says whether the tone at hz belongs to no series yet.
func (w *whose) free(hz float64) bool {
	i := slices.Index(w.tones, hz)
	return i >= 0 && !w.taken[i]
}

// multiples counts the tones that are multiples of hz.
func (w *whose) multiples(hz float64) int {
	n := 0
	for _, f := range w.tones {
		if orderOf(f, hz) > 0 {
			n++
		}
	}
	return n
}

// take makes a series of the tones that are multiples of its lowest.
func (w *whose) take(s Series) {
	for _, i := range w.order {
		if order := orderOf(w.tones[i], s.Hz); order > 0 && !w.taken[i] {
			w.taken[i] = true
			s.Tones, s.Orders = append(s.Tones, i), append(s.Orders, order)
		}
	}
	w.found = append(w.found, s)
}

// mostMultiple is the highest multiple that is looked for: above, a fan's tones are
// lost in its noise, and any tone is near some multiple by chance.
const mostMultiple = 10

// orderOf gives which multiple of hz a tone is; 0 where it is none.
func orderOf(f, hz float64) int {
	order := math.Round(f / hz)
	if order < 1 || order > mostMultiple || math.Abs(f/hz/order-1) > harmonicOff {
		return 0
	}
	return int(order)
}

// mainsOr says whether a tone is the hum of 50 or 60 Hz mains.
func mainsOr(hz float64) Maker {
	for _, mains := range [...]float64{50, 60} {
		if order := math.Round(hz / mains); order >= 1 && order <= mostHum && math.Abs(hz/mains/order-1) <= mainsOff/order {
			return MadeByMains
		}
	}
	return MadeByUnknown
}

// mostHum is the highest multiple of the mains that is still taken for hum.
const mostHum = 6
