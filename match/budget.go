package match

import (
	"cmp"
	"math"
	"slices"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Noise is one thing heard at the listener.
type Noise struct {
	Name  string
	Level float64 // dB(A) there
}

// Share is what one thing is worth in a noise budget.
type Share struct {
	Noise
	Without float64 // dB(A): the total with this one silent; -Inf where nothing else is heard
	Gain    float64 // dB: total less Without, the most that silencing it can gain
	Next    string  // what dominates then; empty where nothing else is heard
}

// Budget is who makes how much of the noise at the listener.
type Budget struct {
	Total  float64 // dB(A); -Inf of nothing
	Shares []Share // loudest first
}

// NoiseBudget adds what is heard at the listener, as energies, and says what
// remains without each. Replacing one fan gains at most its Gain.
func NoiseBudget(heard []Noise) Budget {
	heard = slices.Clone(heard)
	slices.SortFunc(heard, func(a, b Noise) int {
		return cmp.Or(cmp.Compare(b.Level, a.Level), cmp.Compare(a.Name, b.Name))
	})
	b := Budget{Total: totalOf(heard), Shares: make([]Share, len(heard))}
	for i, n := range heard {
		rest := slices.Delete(slices.Clone(heard), i, i+1)
		s := Share{Noise: n, Without: totalOf(rest)}
		s.Gain = b.Total - s.Without
		if len(rest) > 0 {
			s.Next = rest[0].Name
		}
		b.Shares[i] = s
	}
	return b
}

func totalOf(heard []Noise) float64 {
	levels := make([]quantity.SoundPressureLevel, len(heard))
	for i, n := range heard {
		levels[i] = quantity.PressureLevel(n.Level)
	}
	return acoustics.Sum(levels...).DB()
}

// AtListener gives the level of a source at the listener, in free air; at its
// own distance where that of the listener is not known.
func (s *Source) AtListener(listener quantity.Known[quantity.Length]) float64 {
	to := s.Listener.Or(listener.Or(s.Distance))
	return acoustics.AtDistance(s.Level, s.Distance, to).DB()
}

// ListenerOf gives the distance from a path's fan to the listener: its own,
// else that of the device, else 1 m.
func (d *Device) ListenerOf(p *Path) quantity.Length {
	return p.Listener.Or(d.Listener.Or(quantity.Metre))
}

// Together gives the level of a path's equal fans from that of one of them.
func (p *Path) Together(level float64) float64 {
	return level + float64(acoustics.Identical(max(1, p.Fans)))
}

// Pair is one candidate on each of two seats, with what is heard of both and of
// everything else.
type Pair struct {
	A, B  Candidate
	Level float64 // dB(A) at the listener, all together
}

// Price gives what both cost together: a fitted fan nothing. Not ok where a price
// is not known, or they are in two currencies, or nothing is bought.
func (p *Pair) Price() (amount float64, currency string, ok bool) {
	for _, c := range [...]*Candidate{&p.A, &p.B} {
		switch {
		case c.Fitted:
			continue
		case math.IsNaN(c.Price) || ok && currency != c.Currency:
			return math.NaN(), "", false
		}
		amount, currency, ok = amount+c.Price, c.Currency, true
	}
	return amount, currency, ok
}

// Pairs ranks the exchange of two fans: every candidate of a with every one of
// b, with what else is heard, by whole decibels of the sum, then by fewer
// estimates, by the larger of the smaller margins, and by rank. Of the longest
// lists the first most of each are looked at.
func Pairs(a, b *Ranking, rest []Noise, most int) []Pair {
	others := totalOf(rest)
	var out []Pair
	for _, ca := range a.Candidates[:min(most, len(a.Candidates))] {
		for _, cb := range b.Candidates[:min(most, len(b.Candidates))] {
			sum := acoustics.Sum(quantity.PressureLevel(ca.Planned.Level.DB), quantity.PressureLevel(cb.Planned.Level.DB), quantity.PressureLevel(others))
			out = append(out, Pair{ca, cb, sum.DB()})
		}
	}
	slices.SortStableFunc(out, comparePairs)
	return out
}

func comparePairs(p, q Pair) int {
	doubts := func(p Pair) int { return len(p.A.Estimated) + len(p.B.Estimated) }
	margin := func(p Pair) float64 { return math.Min(p.A.Margin, p.B.Margin) }
	return cmp.Or(
		cmp.Compare(math.Round(math.Max(p.Level, quietEnough)), math.Round(math.Max(q.Level, quietEnough))),
		cmp.Compare(doubts(p), doubts(q)),
		cmp.Compare(margin(q), margin(p)),
		cmp.Compare(p.A.Rank, q.A.Rank), cmp.Compare(p.B.Rank, q.B.Rank),
	)
}
