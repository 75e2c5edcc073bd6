package drive

// TachFrequency gives the frequency in Hz of a fan's tach at a range of shares of
// its rated speed, with the ±10 % by which rated speed may be off:
//
//	f = pulses·N_rated·share, N_rated in 1/s
//
// Not ok where pulses or rated speed are not known.
func TachFrequency(l Load, share Range) (hertz Range, ok bool) {
	if !known(l.PulsesPerTurn) || !known(l.RatedSpeed) {
		return Range{}, false
	}
	full := l.PulsesPerTurn * l.RatedSpeed
	return Range{full * share.Low * tachMargin, full * share.High * (2 - tachMargin)}, true
}

// TachHolds holds the tach at a range of shares of rated speed against the lowest
// frequency in Hz the device accepts: Passes where the slowest is above it, Fails
// where the fastest is below, Doubtful between. A device that counts turns of a
// fan with ppr pulses accepts ppr·rpm/60. Unknown where either is not known, NaN
// included.
func TachHolds(l Load, share Range, lowest float64) Verdict {
	hertz, ok := TachFrequency(l, share)
	switch {
	case !ok || !known(lowest):
		return Unknown
	case hertz.Low >= lowest:
		return Passes
	case hertz.High < lowest:
		return Fails
	case hertz.High >= lowest:
		return Doubtful
	}
	return Unknown
}
