package loudness

import (
	"fmt"
	"math"

	"lowsone/acoustics"
)

// Limits of the level of one third octave in dB.
const (
	StandardMost = 120 // the standard ends here: its corrections at low frequencies do. [ISO532-1] A.3, table A.3
	Most         = 130 // Check refuses more
)

// A LevelError says which third octave has a level that no loudness can be
// computed from.
type LevelError struct {
	Band  int     // index into acoustics.Thirds
	Level float64 // dB: NaN, +Inf or above Most
}

// Error names the band by its nominal frequency.
func (e *LevelError) Error() string {
	hz := acoustics.ThirdNominal[e.Band]
	if math.IsNaN(e.Level) {
		return fmt.Sprintf("third octave of %g Hz: the level is unknown", hz)
	}
	return fmt.Sprintf("third octave of %g Hz: a level of %g dB is above %d dB", hz, e.Level, Most)
}

// Check gives a *LevelError for the first band whose level is NaN or above Most,
// else nil. Levels between StandardMost and Most pass: the method goes on
// smoothly there, outside the standard. -Inf and any low level pass too: what
// lies below the threshold in quiet counts nothing.
func Check(l *acoustics.Thirds) error {
	for i, level := range l {
		if !(level <= Most) {
			return &LevelError{Band: i, Level: level}
		}
	}
	return nil
}
