package match

import (
	"fmt"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Installation is what the seat itself adds to the level of a fan: measured
// less predicted level of the fitted fan. It counts for every candidate on the
// seat.
type Installation struct {
	Known      bool
	Offset     float64 // dB; 0 where not known
	Measured   float64 // dB(A) at the distance measured, less the background
	Predicted  float64 // dB(A) there, by label and laws
	Background acoustics.Background
	After      bool // a level was measured, but after a change: it is not of the fan as found
}

// suspicious is the offset in dB above which the fan itself or its mounting is
// to be looked at first (common practice).
const suspicious = 5.0

// install gives what the seat adds, from the level measured of the path's fan.
func install(path *Path, d *known) (Installation, error) {
	r := path.Reading
	if r != nil && r.After {
		return Installation{After: true}, nil
	}
	if r == nil || d.noLevel || !d.hasAir || !d.system.Located {
		return Installation{}, nil
	}
	in := Installation{Known: true}
	level := r.Level
	if background, ok := r.Background.Get(); ok {
		var err error
		if level, in.Background, err = acoustics.Subtract(r.Level, background); err != nil {
			return Installation{}, fmt.Errorf("level measured at the fan: %w", err)
		}
	}
	s := &d.system
	one := acoustics.AtDistance(quantity.PressureLevel(d.fitted.levelAt1m(s.Ratio, s.Q/s.Ratio, s.Density)), acoustics.LabelDistance, r.Distance)
	in.Measured, in.Predicted = level.DB(), one.DB()
	if in.Background == acoustics.UpperBound {
		in.Known = false
		return in, nil
	}
	in.Offset = in.Measured - in.Predicted
	return in, nil
}

// Note says what there is to know of it; empty where nothing was measured.
func (in Installation) Note() string {
	switch {
	case in.After:
		return "the level measured at the fan is of after a change, not of the fan as found: it is not used"
	case in.Background == acoustics.UpperBound:
		return "the level measured at the fan is within 3 dB of the background: it says only that the fan is no louder, and is not used"
	case !in.Known:
		return ""
	case in.Offset > suspicious:
		return fmt.Sprintf("measured %.1f dB(A), %.1f dB above what label and laws say: suspect the bearing, the guard or a resonance; a new fan of the same part may do. The difference is added to every candidate; where the fitted fan itself is at fault, they are that much quieter", in.Measured, in.Offset)
	}
	if in.Offset < -suspicious {
		return fmt.Sprintf("measured %.1f dB(A), %.1f dB below what label and laws say: check the label, its distance and whether it is a sound power, the speed, and the meter. The difference is added to every candidate", in.Measured, -in.Offset)
	}
	return fmt.Sprintf("measured %.1f dB(A), %+.1f dB against label and laws: the difference is added to every candidate", in.Measured, in.Offset)
}
