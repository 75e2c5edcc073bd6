package acoustics

import "lowsone/catalog/quantity"

// QuietRoom gives a typical spectrum of a room's background noise of a level in
// dB(A), where only the level is known: the shape of the noise criterion curve
// of that level, between two curves interpolated; below NC-15 and above NC-70
// the shape of that end. The curves are limits of what is found acceptable, so
// that a real room's noise lies near one of them in few bands: take it for
// typical, as an estimate. [Beranek]; 31.5 Hz by [S12.2].
func QuietRoom(a quantity.SoundPressureLevel) Thirds {
	i := 0
	for i < numNC-2 && a.DB() > ncLevels[i+1] {
		i++
	}
	share := (a.DB() - ncLevels[i]) / (ncLevels[i+1] - ncLevels[i])
	share = min(max(share, 0), 1)
	low, high := ncOctaves(i), ncOctaves(i+1)
	var s Octaves
	for j := range s {
		s[j] = low[j] + share*(high[j]-low[j])
	}
	thirds := s.Thirds()
	return thirds.ScaledTo(a)
}

// ncLevels holds the A-weighted levels of the curves.
var ncLevels = func() (levels [numNC]float64) {
	for i := range levels {
		o := ncOctaves(i)
		levels[i] = o.A().DB()
	}
	return levels
}()

// ncOctaves gives curve i with its level at 31.5 Hz.
func ncOctaves(i int) (s Octaves) {
	s[0] = nc31Hz[i]
	copy(s[octaveNC:], ncCurves[i][:])
	return s
}
