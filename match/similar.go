package match

import (
	"context"
	"math"
	"slices"
	"sync"

	"lowsone/catalog"
	"lowsone/catalog/parallel"
	"lowsone/match/air"
)

// similarFans holds what the complete rows of a catalogue have in common, per
// kind, so that a missing end or level of another fan can be estimated. It is
// empty for kinds of which too few fans are complete.
//
// With D the frame width, A = πD²/4, u = πDN the tip speed:
//
//	flow coefficient      φ = Q₀/(A·u)
//	pressure coefficient  ψ = p₀/(½ρu²)
//	specific level        K = L − 10·lg Q₀ − 20·lg p₀   (Q₀ in m³/s, p₀ in Pa)
//
// φ and ψ are the affinity laws made dimensionless; K is the specific sound
// law (10·lg Q + 20·lg p, testdata/sources/sound_fan_laws.csv F06) with the
// free ends in place of the duty point. Each is the median of its kind; the
// 10 % and 90 % quantiles are its band.
//
// The catalogue is looked through when the first estimate is asked for.
type similarFans struct {
	fans            catalog.Fans
	once            sync.Once
	failed          error // of looking through the catalogue
	phi, psi, noise [catalog.Crossflow + 1]spread
}

// spread is the middle and the 10–90 % band of a number over N fans.
type spread struct {
	Low, Mid, High float64
	N              int
}

// leastSimilar is how many complete fans of a kind an estimate needs (common
// practice: fewer say nothing of the spread).
const leastSimilar = 5

func (s spread) usable() bool { return s.N >= leastSimilar }

// learn looks through the catalogue for complete fans, once. Without, there is
// nothing to estimate by.
func (s *similarFans) learn(ctx context.Context) error {
	s.once.Do(func() {
		var mu sync.Mutex
		var all [coefficientKinds][catalog.Crossflow + 1][][]float64 // in pieces
		spare := sync.Pool{New: func() any { return new(coefficients) }}
		s.failed = s.fans.Scan(ctx, similarReads, func(c *catalog.Columns, begin, end int) error {
			part := spare.Get().(*coefficients)
			defer spare.Put(part)
			part.take(c, begin, end)
			mu.Lock()
			defer mu.Unlock()
			for what := range part {
				for kind, values := range part[what] {
					all[what][kind] = append(all[what][kind], slices.Clone(values))
				}
			}
			return nil
		})
		// None of the jobs fails.
		_ = parallel.Do(len(s.phi), func(kind int) error {
			s.phi[kind], s.psi[kind], s.noise[kind] = spreadOf(all[ofFlow][kind]), spreadOf(all[ofPressure][kind]), spreadOf(all[ofNoise][kind])
			return nil
		})
	})
	return s.failed
}

// similarReads lists the columns that learning takes.
var similarReads = []catalog.FieldID{
	catalog.FieldKind, catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldWidth, catalog.FieldSpeed,
	catalog.FieldNoise, catalog.FieldNoiseKind, catalog.FieldNoiseDistance,
}

// coefficients are those of some complete fans, by what they are and by kind.
type coefficients [coefficientKinds][catalog.Crossflow + 1][]float64

const (
	ofFlow = iota
	ofPressure
	ofNoise
	coefficientKinds
)

// take takes the complete fans of a stretch.
func (a *coefficients) take(c *catalog.Columns, begin, end int) {
	for what := range a {
		for kind := range a[what] {
			a[what][kind] = a[what][kind][:0]
		}
	}
	for i := begin; i < end; i++ {
		if c.IsAside(i) { // the same fan, said twice
			continue
		}
		kind := c.Code(catalog.FieldKind, i)
		q0, p0 := c.Number(catalog.FieldAirflow, i), c.Number(catalog.FieldStaticPressure, i)
		if kind == 0 || math.IsNaN(q0) || math.IsNaN(p0) {
			continue
		}
		if area, u := tip(c.Number(catalog.FieldWidth, i), c.Number(catalog.FieldSpeed, i)); !math.IsNaN(u) {
			a[ofFlow][kind] = append(a[ofFlow][kind], q0/(area*u))
			a[ofPressure][kind] = append(a[ofPressure][kind], p0/(air.StandardDensity/2*u*u))
		}
		if label := c.Number(catalog.FieldNoise, i); !math.IsNaN(label) {
			power := catalog.NoiseKind(c.Code(catalog.FieldNoiseKind, i)) == catalog.NoisePower
			l := labelAt1m(label, power, c.Number(catalog.FieldNoiseDistance, i))
			a[ofNoise][kind] = append(a[ofNoise][kind], l-10*math.Log10(q0)-20*math.Log10(p0))
		}
	}
}

// tip gives the swept area in m² and the tip speed in m/s of a fan of frame
// width d in m turning n times a second.
func tip(d, n float64) (area, u float64) { return math.Pi / 4 * d * d, math.Pi * d * n }

// spreadOf gives the spread of values in pieces.
func spreadOf(v [][]float64) spread {
	n := 0
	for _, piece := range v {
		n += len(piece)
	}
	if n == 0 {
		return spread{}
	}
	place := func(share float64) int { return int(share*float64(n-1) + 0.5) }
	at := atPlaces(v, place(0.1), place(0.5), place(0.9))
	return spread{at[0], at[1], at[2], n}
}

// pressure estimates the shut-off pressure in Pa of a fan with free delivery
// q0; the tip speed follows from φ where the speed n is unknown.
func (s *similarFans) pressure(kind catalog.Kind, d, n, q0 float64) (float64, bool) {
	area, u := tip(d, n)
	if math.IsNaN(u) {
		if !s.phi[kind].usable() {
			return 0, false
		}
		u = q0 / (area * s.phi[kind].Mid)
	}
	p0 := s.psi[kind].Mid * air.StandardDensity / 2 * u * u
	return p0, s.psi[kind].usable() && p0 > 0
}

// flow estimates the free delivery in m³/s of a fan with shut-off pressure p0;
// the tip speed follows from ψ where the speed n is unknown.
func (s *similarFans) flow(kind catalog.Kind, d, n, p0 float64) (float64, bool) {
	area, u := tip(d, n)
	if math.IsNaN(u) {
		if !s.psi[kind].usable() {
			return 0, false
		}
		u = math.Sqrt(p0 / (air.StandardDensity / 2 * s.psi[kind].Mid))
	}
	q0 := s.phi[kind].Mid * area * u
	return q0, s.phi[kind].usable() && q0 > 0
}

// level estimates the level in dB(A) at 1 m from both ends.
func (s *similarFans) level(kind catalog.Kind, q0, p0 float64) (float64, bool) {
	l := s.noise[kind].Mid + 10*math.Log10(q0) + 20*math.Log10(p0)
	return l, s.noise[kind].usable() && !math.IsNaN(l) && !math.IsInf(l, 0)
}
