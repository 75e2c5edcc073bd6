package sample

import (
	"context"

	"lowsone/catalog"
	"lowsone/match"
)

// System is how sure the device itself is, with the fitted fan as it was found.
type System struct {
	Draws   int // that can be
	Dropped int // that contradict themselves
	Air
	Level  Band     // dB(A) of the fitted fan at the listener; NaN where not known
	Over   Band     // K, of the spot that is farthest above its limit at the worst; NaN where none is watched
	Causes []Cause  // of that level and temperature
	Advice []Advice // what to measure next, what tells most first
}

// Device tells how sure the device of a request is. Errors are those of Rank.
func Device(ctx context.Context, source catalog.Fans, req match.Request, o Options) (*System, error) {
	o, err := o.filled()
	if err != nil {
		return nil, err
	}
	study, err := match.NewStudy(ctx, source, req)
	if err != nil {
		return nil, err
	}
	d, err := drawDevices(study, o.Draws, o.Seed)
	if err != nil {
		return nil, err
	}
	t := &told{devices: d}
	for _, one := range d.drawn {
		found, _ := one.AsFound()
		t.level, t.heat = append(t.level, found.Level), append(t.heat, found.Over)
	}
	s := &System{Draws: len(d.drawn), Dropped: d.dropped, Air: airOf(d, study.Need()), Level: bandOf(t.level), Over: bandOf(t.heat)}
	s.Causes = t.causes(study.Unknowns())
	s.Advice = t.advice(s.Causes)
	return s, nil
}
